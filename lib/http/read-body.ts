import "server-only";
import { err, ok, type Result } from "@/lib/result";

export type BodyError = { code: "too-large"; maxBytes: number } | { code: "not-json"; message: string };

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
    return ok(JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes.value)));
  } catch (problem) {
    return err({ code: "not-json", message: problem instanceof Error ? problem.message : "not readable" });
  }
}
