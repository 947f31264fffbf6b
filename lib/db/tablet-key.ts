import "server-only";
import { randomBytes } from "node:crypto";
import type { PersonId } from "@/lib/ids";
import type { TenantTx } from "./tenant";

/** The person's key for work left unsent on a tablet, 32 bytes; the same one for good, on whichever tablet. */
export async function tabletKey(tx: TenantTx, personId: PersonId): Promise<Uint8Array> {
  await tx.tabletKey.createMany({ data: [{ personId, key: randomBytes(32) }], skipDuplicates: true });
  return (await tx.tabletKey.findFirstOrThrow({ where: { personId }, select: { key: true } })).key;
}
