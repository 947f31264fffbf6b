import "server-only";
import { createHash, createHmac, hkdfSync } from "node:crypto";
import { servingEnv } from "@/lib/env";

/** What an address opens; each kind has a key of its own. */
export type LinkKind = "visit" | "calendar";

/** The form of the secret part of such an address: 144 bits. */
export const LINK_TOKEN_FORM = /^[A-Za-z0-9_-]{24}$/;

/**
 * The secret part that belongs to a link, made again from its id whenever it is needed: nothing of it is kept but its hash.
 * Drawn from the session secret (RFC 5869). With another secret, addresses given out still open, but can no longer be shown.
 */
function linkTokenOf(kind: LinkKind, linkId: string): string {
  const key = Buffer.from(hkdfSync("sha256", servingEnv().NEXTAUTH_SECRET, "", `dryhold links, ${kind}, key 1`, 32));
  return createHmac("sha256", key).update(linkId).digest().subarray(0, 18).toString("base64url");
}

export const linkTokenHash = (token: string): Uint8Array => createHash("sha256").update(token).digest();

/** SHA-256 of the secret that belongs to an id. */
export const linkHashOf = (kind: LinkKind) => (linkId: string) => linkTokenHash(linkTokenOf(kind, linkId));

/** The whole address a link opens. */
export function linkAddress(kind: LinkKind, linkId: string): string {
  const ending = kind === "calendar" ? ".ics" : ""; // calendar programs look at it
  return `${servingEnv().NEXTAUTH_URL.replace(/\/+$/, "")}/${kind}/${linkTokenOf(kind, linkId)}${ending}`;
}
