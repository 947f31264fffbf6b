import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, hexToBytes, utf8ToBytes } from "@noble/hashes/utils.js";
import type { Entry, Stamp } from "@/lib/hvac/procedure";
import { err, ok, type Result } from "@/lib/result";
import { receiptText, type Signed } from "./receipt";

/** How a key is told from others: the first half of its SHA-256, in hex. */
export function keyIdOf(publicKeyHex: string): string {
  return bytesToHex(sha256(hexToBytes(publicKeyHex))).slice(0, 32);
}

/**
 * Whether a receipt is the server's, for this very entry and stamp. Needs nothing but the public key (32 bytes in hex): it can be
 * done years later, without the server, by whoever kept the receipt.
 * @source RFC 8032 (Ed25519)
 */
export async function verifyReceipt(
  publicKeyHex: string,
  receipt: { readonly entry: Entry; readonly stamp: Stamp; readonly signed: Signed },
): Promise<Result<null, { code: "another-key" | "not-what-was-signed" }>> {
  if (receipt.signed.key !== keyIdOf(publicKeyHex)) return err({ code: "another-key" });
  const key = await crypto.subtle.importKey("raw", hexToBytes(publicKeyHex).slice(), "Ed25519", false, ["verify"]);
  const text = utf8ToBytes(receiptText(receipt.entry, receipt.stamp));
  const signature = hexToBytes(receipt.signed.signature).slice();
  const holds = await crypto.subtle.verify("Ed25519", key, signature, text.slice());
  return holds ? ok(null) : err({ code: "not-what-was-signed" });
}
