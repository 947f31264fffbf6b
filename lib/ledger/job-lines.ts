import type { MassMove, RefrigerantFact } from "@/lib/hvac/procedure";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { circuit, cylinder, type Place, samePlace } from "./place";
import { MIXED, movement, type Posting, toGrams, UNKNOWN } from "./posting";

/** A posting that follows from an entry of a job's log. */
export interface JobLine extends Posting {
  /** Names the line within its job, the same through every correction: the record, and which of its weighings. */
  readonly key: string;
  readonly entry: string;
  readonly person: string;
  readonly at: string;
  /** What the scale showed on the cylinder afterwards, gross grams. */
  readonly scaleGrams: number | null;
}

export interface JobGround {
  readonly circuitId: string;
  readonly customerId: string;
  /** What the log knows is in the circuit. */
  readonly refrigerant: RefrigerantFact;
  /** Cylinders of the register; a weighing on any other is posted to the unnamed one, which is an exception until settled. */
  readonly cylinders: ReadonlySet<string>;
}

/** The postings of a job's recovery and charge, from the weighings of its log. */
export function jobLines(moves: readonly MassMove[], ground: JobGround): JobLine[] {
  const counts = new Map<string, number>();
  return moves.flatMap((move): JobLine[] => {
    const nth = counts.get(move.statement) ?? 0;
    counts.set(move.statement, nth + 1);
    const inCircuit = circuit(ground.circuitId);
    const held = placeOf(move, ground);
    const [from, to] = move.what === "recovered" ? [inCircuit, held] : [held, inCircuit];
    const moved = movement({
      from,
      to,
      refrigerant: refrigerantOf(move, ground),
      grams: gramsOf(move),
      cause: move.what === "recovered" ? "recovery" : "charge",
      ownerId: move.what === "recovered" ? ground.customerId : null,
    });
    if (moved === null || moved.grams > MOST_GRAMS) return [];
    const { entry, person, at, grossAfterKg } = move;
    const scaleGrams = grossAfterKg === null ? null : Math.min(toGrams(grossAfterKg), MOST_GRAMS);
    return [{ ...moved, key: `${move.statement}/${nth}`, entry, person, at, scaleGrams }];
  });
}

/** A thousand tonnes: what is typed beyond it was no mass, and would keep the entry from being received. */
const MOST_GRAMS = 1e9;

/** Each reading of the scale is rounded to a gram, not their difference, so that weighings one after the other close. */
function gramsOf({ what, massKg, grossBeforeKg, grossAfterKg }: MassMove): number {
  if (grossBeforeKg === null || grossAfterKg === null) return toGrams(massKg);
  const gained = toGrams(grossAfterKg) - toGrams(grossBeforeKg);
  return what === "recovered" ? gained : -gained;
}

function placeOf({ cylinderId }: MassMove, { cylinders }: JobGround): Place {
  return cylinderId !== null && cylinders.has(cylinderId) ? cylinder(cylinderId) : { kind: "unnamed" };
}

function refrigerantOf(move: MassMove, { refrigerant }: JobGround): string {
  if (move.what === "recovered" && refrigerant.state === "mixed") return MIXED;
  if (move.refrigerant !== null) return findRefrigerant(move.refrigerant)?.name ?? move.refrigerant;
  return refrigerant.state === "identified" ? refrigerant.refrigerant : UNKNOWN;
}

/** A line that stands in the books: neither a reversal nor reversed. */
export type StandingLine = Posting & { readonly id: string; readonly key: string };

/** What has to be posted so that the books say what the log says now: reversals of what no longer holds, and what is new. */
export function reconcile(
  standing: readonly StandingLine[],
  expected: readonly JobLine[],
): { readonly reverse: readonly StandingLine[]; readonly post: readonly JobLine[] } {
  const byKey = new Map(standing.map((line) => [line.key, line]));
  const post = expected.filter((line) => !holds(byKey.get(line.key), line));
  const kept = new Set(expected.filter((line) => holds(byKey.get(line.key), line)).map(({ key }) => key));
  return { reverse: standing.filter(({ key }) => !kept.has(key)), post };
}

function holds(standing: StandingLine | undefined, line: JobLine): boolean {
  return (
    standing !== undefined &&
    samePlace(standing.from, line.from) &&
    samePlace(standing.to, line.to) &&
    standing.refrigerant === line.refrigerant &&
    standing.grams === line.grams &&
    standing.ownerId === line.ownerId
  );
}
