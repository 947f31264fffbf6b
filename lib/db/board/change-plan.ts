import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { type Board, dayIndexOf } from "@/lib/work/board/board";
import { indexBoard } from "@/lib/work/board/board-index";
import { isRefused, judgeFit } from "@/lib/work/board/fit";
import type { PlanChange, PlanCommand, PlanRefusal } from "@/lib/work/board/plan-command";
import { dayAt } from "@/lib/work/site-time";
import { addPersonTime, withdrawPersonTime } from "../dispatch/field-people";
import { recordOfficeEvent } from "../office-events";
import type { TenantTx } from "../tenant";
import { planVisit } from "../visits";
import { cancelWorkOrder, openWorkOrder } from "../work-orders";
import { describeLastChange } from "./last-change";
import { changeDetail, lockPlan, type PlanStep, type StepRefusal, takeSteps } from "./plan-steps";
import { type BoardCompany, readBoard } from "./read-board";

type Outcome = Result<PlanChange, PlanRefusal>;
type Command<D extends PlanCommand["do"]> = Extract<PlanCommand, { do: D }>;

export interface Dispatcher extends BoardCompany {
  readonly personId: PersonId;
}

/**
 * Carries out one command of the board. Refused: nothing of it may be kept, the caller rolls back.
 * The plan of a company is changed by one at a time, so that what is judged here is what is written.
 */
export async function changePlan(tx: TenantTx, by: Dispatcher, command: PlanCommand, now: Date): Promise<Outcome> {
  await lockPlan(tx);
  switch (command.do) {
    case "place":
      return place(tx, by, command, now);
    case "take-off":
      return step(tx, by, "taken-off", command, { plannedStart: null, people: [] }, "Taken off the board");
    case "lengthen": {
      const { minutes } = command;
      return step(tx, by, "lengthened", command, { plannedMinutes: minutes }, `Planned for ${minutes} min`);
    }
    case "away":
      return markAway(tx, by, command);
    case "accept":
      return accept(tx, by, command);
    case "undo":
      return undo(tx, by, command);
  }
}

async function place(tx: TenantTx, by: Dispatcher, command: Command<"place">, now: Date): Promise<Outcome> {
  const startAt = new Date(command.startMs);
  const board = await readBoard(tx, [dayAt(startAt, by.timeZone)], by, now);
  const index = indexBoard(board);
  const visit = index.visit.get(command.id) ?? (await elsewhere(tx, command, by, now));
  if (visit === undefined) return goneWords(tx, by, command);
  if (visit.version !== command.version)
    return err({ code: "changed-meanwhile", words: await describeLastChange(tx, visit.id, by.timeZone) });
  const misfits = judgeFit(index, visit, { personId: command.personId, startMs: command.startMs });
  const mayAnyway = !misfits.some(isRefused);
  if (misfits.length > 0 && !(command.anyway && mayAnyway)) return err({ code: "does-not-fit", misfits, mayAnyway });
  const crew = crewOn(board, command.personId, command.startMs);
  const words = `${visit.label} placed`;
  if (visit.kind === "call") return orderCall(tx, by, command, crew, words);
  const left = command.fromPersonId ? crewOn(board, command.fromPersonId, command.startMs) : visit.people;
  const people = [...new Set([...visit.people.filter((person) => !left.includes(person)), ...crew])];
  return step(tx, by, "placed", command, { plannedStart: startAt.toISOString(), people }, words);
}

/** A visit that stands on another day than the one it goes to. */
async function elsewhere(tx: TenantTx, { kind, id }: Command<"place">, by: Dispatcher, now: Date) {
  if (kind === "call") return undefined;
  const visit = await tx.visit.findFirst({ where: { id }, select: { plannedStart: true, windowFrom: true } });
  const at = visit?.plannedStart ?? visit?.windowFrom;
  if (!at) return undefined;
  const board = await readBoard(tx, [dayAt(at, by.timeZone)], by, now);
  return board.visits.find((each) => each.id === id);
}

async function goneWords(
  tx: TenantTx,
  by: Dispatcher,
  { kind, id }: Pick<Command<"place">, "kind" | "id">,
): Promise<Outcome> {
  if (kind === "call") {
    const call = await tx.serviceCall.findFirst({ where: { id }, select: { number: true } });
    if (call === null) return err({ code: "not-found" });
    return err({ code: "changed-meanwhile", words: `Call ${call.number} was ordered or cancelled meanwhile.` });
  }
  if ((await tx.visit.count({ where: { id } })) === 0) return err({ code: "not-found" });
  return err({ code: "changed-meanwhile", words: await describeLastChange(tx, id, by.timeZone) });
}

async function orderCall(
  tx: TenantTx,
  by: Dispatcher,
  command: { readonly id: string; readonly startMs: number },
  people: readonly string[],
  words: string,
  change = uuidv7(),
): Promise<Outcome> {
  const orderId = await openWorkOrder(tx, command.id);
  if (orderId === null) return goneWords(tx, by, { kind: "call", id: command.id });
  const plan = { window: null, plannedStart: new Date(command.startMs), plannedMinutes: 120, people };
  const visit = await planVisit(tx, orderId, plan);
  if (!visit.ok) return err({ code: "refused", words: "This person cannot be sent any more." });
  await recordOfficeEvent(tx, by.personId, { what: "opened", subject: "work-order", subjectId: orderId });
  const detail = { change, orderId, version: 1 };
  await recordOfficeEvent(tx, by.personId, { what: "placed", subject: "visit", subjectId: visit.value, detail });
  return ok({ change, words });
}

const crewOn = ({ days, people }: Board, personId: string, ms: number): readonly string[] =>
  people.find(({ id }) => id === personId)?.days[Math.max(0, dayIndexOf(days, ms))]?.crew ?? [personId];

async function step(
  tx: TenantTx,
  by: Dispatcher,
  what: string,
  { id, version }: { readonly id: string; readonly version: number },
  change: PlanStep["change"],
  words: string,
): Promise<Outcome> {
  return steps(tx, by, what, [{ visitId: id, version, change }], words);
}

async function steps(
  tx: TenantTx,
  by: Dispatcher,
  what: string,
  taken: readonly PlanStep[],
  words: string,
  change = uuidv7(),
): Promise<Outcome> {
  const done = await takeSteps(tx, by.personId, what, change, taken);
  return done.ok ? ok({ change, words }) : err(await refusalOf(tx, by, done.error));
}

async function refusalOf(tx: TenantTx, by: Dispatcher, refusal: StepRefusal): Promise<PlanRefusal> {
  if (refusal.code === "not-found") return refusal;
  const words = await describeLastChange(tx, refusal.visitId, by.timeZone);
  return { code: "changed-meanwhile", words };
}

async function markAway(tx: TenantTx, by: Dispatcher, command: Command<"away">): Promise<Outcome> {
  const { personId, fromMs, toMs } = command;
  if (toMs <= fromMs) return err({ code: "refused", words: "The absence must end after it begins." });
  const time = { kind: "away" as const, fromAt: new Date(fromMs), toAt: new Date(toMs), note: "" };
  const timeId = await addPersonTime(tx, personId, time);
  if (timeId === null) return err({ code: "not-found" });
  const change = uuidv7();
  await recordOfficeEvent(tx, by.personId, {
    what: "marked-away",
    subject: "member",
    subjectId: personId,
    detail: { change, timeId },
  });
  return ok({ change, words: "Marked as away" });
}

/** Everything accepted of a proposal, or nothing: the day must be as the proposal saw it. */
async function accept(tx: TenantTx, by: Dispatcher, { basis, moves }: Command<"accept">): Promise<Outcome> {
  const seen = new Map(basis.map(({ id, version }) => [id, version]));
  const rows = await tx.visit.findMany({
    where: { id: { in: [...seen.keys()] } },
    select: { id: true, version: true },
  });
  const changed = rows.find(({ id, version }) => seen.get(id) !== version);
  if (changed) return err({ code: "changed-meanwhile", words: await describeLastChange(tx, changed.id, by.timeZone) });
  const people = [...new Set(moves.flatMap((move) => move.people))];
  const known = await tx.member.count({
    where: { personId: { in: people }, active: true, roles: { has: "technician" } },
  });
  if (known !== people.length) return err({ code: "refused", words: "One of these people cannot be sent any more." });
  const change = uuidv7();
  for (const move of moves) {
    if (move.kind !== "call" || move.startMs === null) continue;
    const ordered = await orderCall(tx, by, { id: move.id, startMs: move.startMs }, move.people, "", change);
    if (!ordered.ok) return ordered;
  }
  const taken = moves
    .filter(({ kind }) => kind === "visit")
    .map(
      (move): PlanStep => ({
        visitId: move.id,
        version: move.version,
        change: {
          plannedStart: move.startMs === null ? null : new Date(move.startMs).toISOString(),
          people: [...move.people].sort(),
        },
      }),
    );
  const count = moves.length === 1 ? "1 change" : `${moves.length} changes`;
  return steps(tx, by, "proposed", taken, `${count} accepted`, change);
}

/** Takes a change back as a whole, if nothing of it was changed again since. Taking that back does it again. */
async function undo(tx: TenantTx, by: Dispatcher, { change: undone }: Command<"undo">): Promise<Outcome> {
  const events = await tx.$queryRaw<{ subject: string; subjectId: string; detail: unknown }[]>`
    select subject, subject_id as "subjectId", detail from office_event
    where detail ? 'change' and detail ->> 'change' = ${undone}`;
  if (events.length === 0) return err({ code: "not-found" });
  const change = uuidv7();
  const taken: PlanStep[] = [];
  for (const { subject, subjectId, detail } of events) {
    const kept = changeDetail.parse(detail);
    if (kept.timeId !== undefined) {
      if (!(await withdrawPersonTime(tx, subjectId, kept.timeId, new Date())))
        return err({ code: "changed-meanwhile", words: "The absence was taken back already." });
      await recordOfficeEvent(tx, by.personId, {
        what: "undid",
        subject: "member",
        subjectId,
        detail: { undoes: undone },
      });
    } else if (kept.orderId !== undefined) {
      const visit = await tx.visit.findFirst({ where: { id: subjectId }, select: { version: true, state: true } });
      if (visit?.version !== kept.version || visit?.state !== "planned")
        return err({ code: "changed-meanwhile", words: await describeLastChange(tx, subjectId, by.timeZone) });
      const ended = await cancelWorkOrder(tx, kept.orderId);
      if (!ended.ok) return err({ code: "refused", words: "Work on this order has begun; cancel it on its own page." });
      await recordOfficeEvent(tx, by.personId, {
        what: "undid",
        subject: "visit",
        subjectId,
        detail: { undoes: undone },
      });
    } else if (subject === "visit" && kept.before !== undefined && kept.version !== undefined)
      taken.push({ visitId: subjectId, version: kept.version, change: kept.before });
  }
  if (taken.length > 0) {
    const done = await takeSteps(tx, by.personId, "undid", change, taken);
    if (!done.ok) return err(await refusalOf(tx, by, done.error));
  }
  return ok({ change, words: "Taken back" });
}
