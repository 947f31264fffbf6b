import "server-only";
import { err, ok, type Result } from "@/lib/result";

export type BodyError = { code: "too-large"; maxBytes: number } | { code: "not-json"; message: string };

/** Nothing we take is nested this deep, and what is nested without end cannot even be written down to be looked at. */
const MAX_DEPTH = 64;

/** The bytes of a request, never more than `maxBytes` of them in memory. */
export async function readBytes(request: Request, maxBytes: number): Promise<Result<Uint8Array, BodyError>> {
  if (Number(request.headers.get("content-length") ?? 0) > maxBytes) return err({ code: "too-large", maxBytes });
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of (request.body ?? []) as AsyncIterable<Uint8Array>) {
    length += part.byteLength;
    if (length > maxBytes) return err({ code: "too-large", maxBytes });
    parts.push(part);
  }
  return ok(Buffer.concat(parts, length));
}

export async function readJson(request: Request, maxBytes: number): Promise<Result<unknown, BodyError>> {
  const bytes = await readBytes(request, maxBytes);
  if (!bytes.ok) return bytes;
  try {
    const value: unknown = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes.value));
    if (isDeeperThan(value, MAX_DEPTH)) return err({ code: "not-json", message: `nested over ${MAX_DEPTH} deep` });
    return ok(value);
  } catch (problem) {
    return err({ code: "not-json", message: problem instanceof Error ? problem.message : "not readable" });
  }
}

function isDeeperThan(value: unknown, levels: number): boolean {
  if (typeof value !== "object" || value === null) return false;
  return levels === 0 || Object.values(value).some((part) => isDeeperThan(part, levels - 1));
}
