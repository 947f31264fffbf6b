import "server-only";
import { createPrivateKey, createPublicKey, hkdfSync, type KeyObject, sign } from "node:crypto";
import { servingEnv } from "@/lib/env";
import type { Stamp } from "@/lib/hvac/procedure";
import { receiptTextOf, type Signed } from "@/lib/sync/receipt";
import { keyIdOf } from "@/lib/sync/verify-receipt";

/** DER before the 32 bytes of an Ed25519 private key. @source RFC 8410, section 7 */
const PKCS8_HEAD = Buffer.from("302e020100300506032b657004220420", "hex");

interface ReceiptKey {
  readonly secret: string;
  readonly privateKey: KeyObject;
  readonly publicKeyHex: string;
  readonly id: string;
}
let held: ReceiptKey | undefined;

/** Drawn from the session secret (RFC 5869), so that there is one secret to keep; another secret is another key. */
function receiptKey(): ReceiptKey {
  const secret = servingEnv().NEXTAUTH_SECRET;
  if (held?.secret === secret) return held;
  const seed = Buffer.from(hkdfSync("sha256", secret, "", "dryhold receipts, key 1", 32));
  const privateKey = createPrivateKey({ key: Buffer.concat([PKCS8_HEAD, seed]), format: "der", type: "pkcs8" });
  const spki = createPublicKey(privateKey).export({ format: "der", type: "spki" });
  const publicKeyHex = spki.subarray(-32).toString("hex");
  held = { secret, privateKey, publicKeyHex, id: keyIdOf(publicKeyHex) };
  return held;
}

export const receiptPublicKey = () => receiptKey().publicKeyHex;

/** Signs that the entry of this digest was received as stamped; only for what is committed. */
export function signReceipt(
  entry: { readonly company: string; readonly job: string; readonly id: string; readonly digest: string },
  stamp: Stamp,
): Signed {
  const { privateKey, id } = receiptKey();
  return { key: id, signature: sign(null, Buffer.from(receiptTextOf(entry, stamp)), privateKey).toString("hex") };
}
