import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { LawEventKind } from "@/lib/duties";
import type { PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { toColumn } from "../calendar-date";
import { recordOfficeEvent } from "../office-events";
import type { TenantTx } from "../tenant";

export interface NewLawEvent {
  readonly circuitId: string;
  readonly kind: LawEventKind | "records-given";
  readonly on: string;
  readonly passed: boolean | null;
  readonly doneBy: string;
  readonly certificate: string;
  readonly method: string;
  readonly note: string;
}

/** Records what was done about a circuit; the event's id, or nothing where the company has no such circuit. */
export async function recordLawEvent(
  tx: TenantTx,
  event: NewLawEvent,
  by: PersonId,
): Promise<Result<string, { code: "not-found" }>> {
  const circuit = await tx.circuit.findFirst({ where: { id: event.circuitId }, select: { id: true } });
  if (!circuit) return err({ code: "not-found" });
  const id = uuidv7();
  const { on, ...said } = event;
  await tx.lawEvent.create({
    data: { id, ...said, happenedOn: toColumn(on)!, sourceKey: `office:${id}`, personId: by },
  });
  const detail = { kind: event.kind, on, passed: event.passed };
  await recordOfficeEvent(tx, by, { what: "recorded", subject: "circuit", subjectId: event.circuitId, detail });
  return ok(id);
}

/** Takes an event of the office back: it stays on the record, superseded, with the reason. What a job's log says is corrected there. */
export async function withdrawLawEvent(
  tx: TenantTx,
  id: string,
  why: string,
  by: PersonId,
): Promise<Result<string, { code: "not-found" | "of-a-log" }>> {
  const event = await tx.lawEvent.findFirst({ where: { id, kind: { not: "withdrawn" } } });
  const superseded = await tx.lawEvent.count({ where: { supersedes: id } });
  if (!event || superseded > 0) return err({ code: "not-found" });
  if (event.jobId !== null) return err({ code: "of-a-log" });
  const { circuitId, happenedOn } = event;
  const data = { id: uuidv7(), circuitId, kind: "withdrawn", happenedOn, note: why, supersedes: id, personId: by };
  await tx.lawEvent.create({ data: { ...data, sourceKey: `withdraws:${id}` } });
  await recordOfficeEvent(tx, by, {
    what: "withdrawn",
    subject: "circuit",
    subjectId: circuitId,
    detail: { event: id },
  });
  return ok(circuitId);
}

/** Everything recorded about a circuit between two days, the newest first, with what was superseded. */
export async function listLawEvents(tx: TenantTx, circuitId: string, period?: { from: string; to: string }) {
  const rows = await tx.lawEvent.findMany({
    where: {
      circuitId,
      ...(period && { happenedOn: { gte: toColumn(period.from)!, lte: toColumn(period.to)! } }),
    },
    orderBy: [{ happenedOn: "desc" }, { recordedAt: "desc" }],
  });
  const superseded = new Set(rows.map(({ supersedes }) => supersedes));
  return rows.map((row) => ({
    ...row,
    happenedOn: row.happenedOn.toISOString().slice(0, 10),
    stands: row.kind !== "withdrawn" && !superseded.has(row.id),
  }));
}
