import { describe, expect, test } from "vitest";
import { homeOf } from "@/lib/auth/home";
import { hashOfToken, newInvitationToken } from "@/lib/auth/invitation-token";
import { hashPassword, passwordFits, weaknessOf } from "@/lib/auth/password";
import { isRole } from "@/lib/auth/roles";

describe("a password", () => {
  test("fits its own hash and no other", async () => {
    const hash = await hashPassword("twelve dry hoses");
    expect(hash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/); // RFC 9106 names argon2id; parameters: OWASP minimum, from memory
    expect(await passwordFits("twelve dry hoses", hash)).toBe(true);
    expect(await passwordFits("twelve dry hoses ", hash)).toBe(false);
    expect(await passwordFits("", hash)).toBe(false);
    expect(await hashPassword("twelve dry hoses")).not.toBe(hash);
  });

  test("is the same however its letters are composed (Unicode NFKC, UAX #15)", async () => {
    expect(await passwordFits("Kälteanlage 1", await hashPassword("Ka\u0308lteanlage 1"))).toBe(true);
  });

  test("of nobody never fits, and is looked at all the same", async () => {
    await passwordFits("warm up", null);
    const time = async (hash: string | null) => {
      const began = performance.now();
      for (let n = 0; n < 5; n++) expect(await passwordFits("nobody has this password", hash)).toBe(false);
      return performance.now() - began;
    };
    const hash = await hashPassword("another");
    const [known, unknown] = [await time(hash), await time(null)];
    expect(unknown).toBeGreaterThan(known / 4); // an early answer would be a thousandth of it
  });

  test.each([
    ["short one", "too-short"],
    ["🙂🙂🙂🙂🙂", "too-short"],
    ["x".repeat(201), "too-long"],
    ["aaaaaaaaaaaa", "too-common"],
    ["password123456", "too-common"],
    ["twelve dry hoses", null],
  ])("%s: %s", (password, weakness) => {
    expect(weaknessOf(password)).toBe(weakness);
  });
});

test("a link's token is kept as its hash alone, and is never the same twice", () => {
  const [one, other] = [newInvitationToken(), newInvitationToken()];
  expect(one.token).not.toBe(other.token);
  expect(one.token.length).toBeGreaterThanOrEqual(43); // 32 bytes in base64url, RFC 4648
  expect(hashOfToken(one.token)).toEqual(one.tokenHash);
});

test("each role has a place to begin the day", () => {
  const home = (...roles: Parameters<typeof homeOf>[0]["roles"]) => homeOf({ slug: "alder", roles });
  expect(home("technician")).toBe("/t/alder");
  expect(home("dispatcher", "technician")).toBe("/alder/board");
  expect(home("supervisor")).toBe("/alder/exceptions");
  expect(home("owner", "technician")).toBe("/alder/quality/proof");
});

test("only the four roles are roles", () => {
  for (const odd of ["admin", "Owner", "", "toString", null, ["owner"]]) expect(isRole(odd)).toBe(false);
});
