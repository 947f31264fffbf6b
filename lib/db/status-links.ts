import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { recordOfficeEvent } from "./office-events";
import type { TenantTx } from "./tenant";

/** The id of the link that holds for a work order; null when there is none. */
export async function statusLinkOf(tx: TenantTx, orderId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ id: string | null }[]>`select gate.status_link_of(${orderId}::uuid) as id`;
  return row!.id;
}

/** The link that holds, made where there is none; `hashOf` gives the SHA-256 of the secret that belongs to an id. */
export async function ensureStatusLink(
  tx: TenantTx,
  orderId: string,
  hashOf: (linkId: string) => Uint8Array,
): Promise<string> {
  const id = uuidv7();
  const [row] = await tx.$queryRaw<{ id: string }[]>`
    select gate.make_status_link(${id}::uuid, ${Buffer.from(hashOf(id))}, ${orderId}::uuid) as id`;
  return row!.id;
}

/** Takes the order's link back for good, with its event; false when none held. */
export async function revokeStatusLink(tx: TenantTx, orderId: string, by: PersonId): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ revoked: boolean }[]>`
    select gate.revoke_status_link(${orderId}::uuid, ${by}::uuid) as revoked`;
  if (!row!.revoked) return false;
  await recordOfficeEvent(tx, by, { what: "status-link-revoked", subject: "work-order", subjectId: orderId });
  return true;
}
