import "server-only";
import { createHash, randomBytes } from "node:crypto";

/** A new link's secret part and the hash that is all the database keeps of it. */
export function newInvitationToken(): { token: string; tokenHash: Uint8Array } {
  const token = randomBytes(32).toString("base64url");
  return { token, tokenHash: hashOfToken(token) };
}

export function hashOfToken(token: string): Uint8Array {
  return createHash("sha256").update(token).digest();
}
