import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";
import type { Entry } from "@/lib/hvac/procedure";
import type { EntryId } from "@/lib/ids";
import { closingInput } from "./protocol";

/**
 * SHA-256 over the canonical JSON of a value, in lower-case hex.
 * @source RFC 8785 (canonical JSON); FIPS 180-4 (SHA-256)
 */
export function digestOf(value: unknown): string {
  const canonical = canonicalize(value);
  if (canonical === undefined) throw new Error("a value without a JSON form has no digest");
  return bytesToHex(sha256(utf8ToBytes(canonical)));
}

/** The digest a closing entry carries: over all entries it closes and the heads it saw. */
export function closingDigest(entries: readonly Entry[], heads: readonly EntryId[]): string {
  return digestOf(closingInput(entries, heads, digestOf));
}
