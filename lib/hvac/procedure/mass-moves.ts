import type { CylinderId, EntryId, PersonId } from "@/lib/ids";
import type { LogItem } from "../log/corrections";
import type { EvidenceOf, LogEntry, LogEntryOf } from "../log/entry";
import { layGround } from "./job-ground";

/** One weighing of the log that counts: what came out of the circuit into a cylinder, or went in from one. */
export interface MassMove {
  /** The first version of the record and the one that counts now. */
  readonly statement: EntryId;
  readonly entry: EntryId;
  readonly person: PersonId;
  /** When it was done by the device's clock, put right where its error is known, never later than it was received. */
  readonly at: string;
  readonly what: "recovered" | "charged";
  /** null for a cylinder nobody identified, or for a charge that no cylinder's weighing explains. */
  readonly cylinderId: CylinderId | null;
  readonly label: string;
  readonly refrigerant: string | null;
  /** Out of the circuit for what was recovered, into it for what was charged; negative the other way round. */
  readonly massKg: number;
  readonly grossBeforeKg: number | null;
  readonly grossAfterKg: number | null;
}

/** Every mass the log says was moved, in causal order, corrections applied; a weighing told twice counts once. */
export function massMoves(entries: Iterable<LogEntry>): MassMove[] {
  return movesOf(layGround([...entries]).items);
}

export function movesOf(items: readonly LogItem[]): MassMove[] {
  const moves: MassMove[] = [];
  const told = new Set<string>();
  for (const { original, current } of items) {
    if (current.kind !== "step-recorded") continue;
    const said = { statement: original.id, entry: current.id, person: current.person, at: happenedAt(current) };
    if (current.body.step === "recover") {
      for (const weighing of current.body.evidence.cylinders) {
        const { label, grossBeforeKg, grossAfterKg } = weighing;
        const once = `${label} ${grossBeforeKg} ${grossAfterKg}`;
        if (told.has(once)) continue;
        told.add(once);
        moves.push({ ...said, what: "recovered", ...weighed(weighing), massKg: grossAfterKg - grossBeforeKg });
      }
    }
    if (current.body.step === "break_and_charge") moves.push(...chargeMoves(said, current.body.evidence));
  }
  return moves;
}

type Said = Pick<MassMove, "statement" | "entry" | "person" | "at">;

function chargeMoves(said: Said, { weighedInKg, cylinders }: EvidenceOf<"break_and_charge">): MassMove[] {
  const moves = cylinders.map((weighing): MassMove => {
    const massKg = weighing.grossBeforeKg - weighing.grossAfterKg;
    return { ...said, what: "charged", ...weighed(weighing), massKg };
  });
  const restKg = weighedInKg - moves.reduce((sum, { massKg }) => sum + massKg, 0);
  if (Math.abs(restKg) < 0.0005) return moves;
  const nobody = { cylinderId: null, label: "", refrigerant: null, grossBeforeKg: null, grossAfterKg: null };
  return [...moves, { ...said, what: "charged", ...nobody, massKg: restKg }];
}

type Weighing = EvidenceOf<"break_and_charge">["cylinders"][number];

function weighed({ cylinderId, label, refrigerant, grossBeforeKg, grossAfterKg }: Weighing) {
  return { cylinderId, label, refrigerant, grossBeforeKg, grossAfterKg };
}

function happenedAt({ deviceAt, clockOffsetMs, stamp }: LogEntryOf<"step-recorded">): string {
  const told = Date.parse(deviceAt) + (clockOffsetMs ?? 0);
  const latest = stamp === null ? LAST_MS : Date.parse(stamp.receivedAt);
  return new Date(Math.min(Math.max(told, FIRST_MS), latest)).toISOString();
}

/** A device may claim any time at all; outside these the clock was never set. */
const FIRST_MS = Date.UTC(2000, 0, 1);
const LAST_MS = Date.UTC(2200, 0, 1);
