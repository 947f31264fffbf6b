import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { type Cause, cylinder, type Objection, objectionsToFill, type Place } from "@/lib/ledger";
import { err, ok, type Result } from "@/lib/result";
import { toColumn } from "../calendar-date";
import { recordOfficeEvent } from "../office-events";
import type { TenantTx } from "../tenant";
import { readCylinders } from "./cylinders-in-books";
import { insertPostings, lockBooks } from "./posting-rows";

export const MOVEMENT_KINDS = [
  "purchase",
  "return",
  "shipment",
  "reclaimed",
  "destruction",
  "decant",
  "settled",
] as const;
export type MovementKind = (typeof MOVEMENT_KINDS)[number];

export interface Movement {
  readonly kind: MovementKind;
  readonly cylinderId: string;
  /** The other cylinder of a decanting. */
  readonly toCylinderId: string | null;
  readonly refrigerant: string;
  readonly grams: number;
  readonly party: string;
  readonly number: string;
  readonly note: string;
  readonly on: string;
}

export type MovementRefusal = { code: "not-found" } | { code: "same-cylinder" };

/**
 * Books what the office says has happened: a purchase, a shipment, a decanting. It is booked even where it passed a limit; what stands
 * against it comes back to be shown as an alarm.
 */
export async function bookMovement(
  tx: TenantTx,
  movement: Movement,
  by: PersonId,
): Promise<Result<{ id: string; alarms: readonly Objection[] }, MovementRefusal>> {
  const { kind, cylinderId, toCylinderId, refrigerant, grams, on } = movement;
  if (kind === "decant" && (toCylinderId === null || toCylinderId === cylinderId))
    return err({ code: "same-cylinder" });
  await lockBooks(tx);
  const [first] = await readCylinders(tx, cylinderId);
  const [second] = kind === "decant" ? await readCylinders(tx, toCylinderId!) : [];
  if (!first || (kind === "decant" && !second)) return err({ code: "not-found" });
  const [from, to] = placesOf(movement);
  const into = to.kind === "cylinder" ? (second ?? first) : null;
  const ownerId = from.kind === "cylinder" && to.kind === "cylinder" ? (first.owners[0] ?? null) : null;
  const fill = { tense: "happened", refrigerant, grams, ownerId, day: on } as const;
  const alarms = into ? objectionsToFill(into, fill) : [];
  const id = uuidv7();
  const { party, number, note } = movement;
  await tx.refrigerantDocument.create({
    data: { id, kind, party, number, note, onDay: toColumn(on)!, cylinderId, madeBy: by },
  });
  const cause = kind as Cause;
  const posting = { from, to, refrigerant, grams, cause, ownerId, happenedOn: on, documentId: id, personId: by };
  await insertPostings(tx, [{ ...posting, sourceKey: `document:${id}` }]);
  const detail = { kind, refrigerant, grams, party, number, alarms: alarms.map(({ code }) => code) };
  await recordOfficeEvent(tx, by, { what: "booked", subject: "cylinder", subjectId: cylinderId, detail });
  return ok({ id, alarms });
}

function placesOf({ kind, cylinderId, toCylinderId }: Movement): [Place, Place] {
  const held = cylinder(cylinderId);
  switch (kind) {
    case "purchase":
      return [{ kind: "supplier" }, held];
    case "return":
      return [held, { kind: "supplier" }];
    case "shipment":
      return [held, { kind: "reclaimer" }];
    case "reclaimed":
      return [{ kind: "reclaimer" }, held];
    case "destruction":
      return [held, { kind: "destroyed" }];
    case "decant":
      return [held, cylinder(toCylinderId!)];
    case "settled":
      return [{ kind: "unnamed" }, held];
  }
}

/** Hands a cylinder over, to a van or back to the shop: who has it now, and a paper of it. */
export async function handOver(
  tx: TenantTx,
  cylinderId: string,
  toPerson: string | null,
  on: string,
  by: PersonId,
): Promise<Result<null, { code: "not-found" | "no-such-holder" }>> {
  const found = await tx.cylinder.findFirst({ where: { id: cylinderId, retiredAt: null }, select: { id: true } });
  if (!found) return err({ code: "not-found" });
  if (toPerson !== null && (await tx.member.count({ where: { personId: toPerson, active: true } })) === 0)
    return err({ code: "no-such-holder" });
  await tx.cylinder.updateMany({ where: { id: cylinderId }, data: { heldBy: toPerson } });
  const data = { id: uuidv7(), kind: "handover", onDay: toColumn(on)!, cylinderId, toPerson, madeBy: by };
  await tx.refrigerantDocument.create({ data });
  const detail = { to: toPerson };
  await recordOfficeEvent(tx, by, { what: "handed-over", subject: "cylinder", subjectId: cylinderId, detail });
  return ok(null);
}

/** The record of an appliance given up: whose, where, when, what was in it, and what became of it. */
export async function recordDisposal(
  tx: TenantTx,
  disposal: { circuitId: string; party: string; number: string; note: string; on: string },
  by: PersonId,
): Promise<Result<string, { code: "not-found" }>> {
  const { circuitId, on, ...paper } = disposal;
  if ((await tx.circuit.count({ where: { id: circuitId } })) === 0) return err({ code: "not-found" });
  const id = uuidv7();
  await tx.refrigerantDocument.create({
    data: { id, kind: "disposal", onDay: toColumn(on)!, circuitId, madeBy: by, ...paper },
  });
  await recordOfficeEvent(tx, by, { what: "disposed", subject: "circuit", subjectId: circuitId, detail: { on } });
  return ok(id);
}
