import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import type { Prisma } from "./generated/client";
import type { TenantTx } from "./tenant";

export type OfficeSubject =
  | "customer"
  | "site"
  | "equipment"
  | "circuit"
  | "member"
  | "certificate"
  | "invitation"
  | "tool"
  | "cylinder"
  | "company"
  | "import"
  | "service-call"
  | "work-order"
  | "visit"
  | "circuit-job"
  | "callback"
  | "callback-cause"
  | "quarantine";

/** Who did what to which thing; written in the same transaction as the change itself. */
export interface OfficeEvent {
  /** A verb in the past: "created", "changed", "archived", "role-changed". */
  what: string;
  subject: OfficeSubject;
  subjectId: string;
  detail?: Prisma.InputJsonObject;
}

export async function recordOfficeEvent(tx: TenantTx, by: PersonId, event: OfficeEvent): Promise<void> {
  await tx.officeEvent.create({ data: { id: uuidv7(), personId: by, ...event } });
}

/** The latest changes of one thing, newest first. */
export function listOfficeEvents(tx: TenantTx, subjectId: string, limit = 50) {
  return tx.officeEvent.findMany({
    where: { subjectId },
    orderBy: { at: "desc" },
    take: limit,
    select: { id: true, at: true, what: true, subject: true, detail: true, person: { select: { name: true } } },
  });
}
