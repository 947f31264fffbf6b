import { expect, test } from "vitest";
import { contentSecurityPolicy } from "@/lib/content-security-policy";

const policy = contentSecurityPolicy("bm9uY2U=", "production");
const directive = (name: string) => policy.split("; ").find((part) => part.startsWith(`${name} `));

test("only scripts with this response's nonce run: nothing inline, nothing evaluated", () => {
  expect(directive("script-src")).toBe("script-src 'self' 'nonce-bm9uY2U=' 'strict-dynamic'");
});

test.each([
  ["frame-ancestors", "frame-ancestors 'none'"],
  ["object-src", "object-src 'none'"],
  ["base-uri", "base-uri 'none'"],
  ["default-src", "default-src 'self'"],
])("%s is closed", (name, expected) => expect(directive(name)).toBe(expected));
