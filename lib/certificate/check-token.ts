import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

/** 144 random bits: nobody finds a paper's address by trying. */
const TOKEN_BYTES = 18;
export const TOKEN_FORM = /^[A-Za-z0-9_-]{24}$/;

/** A new link's secret part; `random` fills its argument from the platform's own source. */
export function newCheckToken(random: (bytes: Uint8Array<ArrayBuffer>) => void): string {
  const bytes = new Uint8Array(TOKEN_BYTES);
  random(bytes);
  return btoa(String.fromCharCode(...bytes))
    .replaceAll("+", "-")
    .replaceAll("/", "_");
}

/** SHA-256 of a token in hex: all that is kept of it. */
export function checkTokenHash(token: string): string {
  return bytesToHex(sha256(utf8ToBytes(token)));
}
