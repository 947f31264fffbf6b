import { type Place, placeKey } from "./place";

/** Why mass moved. */
export const CAUSES = [
  "opening",
  "counted",
  "recovery",
  "charge",
  "found-short",
  "purchase",
  "return",
  "decant",
  "shipment",
  "reclaimed",
  "destruction",
  "past-addition",
  "release",
  "settled",
] as const;
export type Cause = (typeof CAUSES)[number];

/** What was recovered from circuits of unknown or several refrigerants. */
export const MIXED = "mixed";
export const UNKNOWN = "unknown";

/** One movement of mass: out of one place and into another, whole grams, so that it balances by itself. */
export interface Posting {
  readonly from: Place;
  readonly to: Place;
  readonly refrigerant: string;
  /** Always more than none; a movement the other way round has its places swapped. */
  readonly grams: number;
  readonly cause: Cause;
  /** Whose refrigerant it is: the customer whose circuit it came out of; null for the company's own. */
  readonly ownerId: string | null;
}

/** Mass as the books keep it: whole grams. */
export function toGrams(kg: number): number {
  return Math.round(kg * 1000);
}

/** A movement of so much, in the direction its sign says; null where nothing moved. */
export function movement(of: Posting): Posting | null {
  if (of.grams === 0) return null;
  return of.grams > 0 ? of : { ...of, from: of.to, to: of.from, grams: -of.grams };
}

/** What takes a posting back: the same mass the other way. The posting itself stays. */
export function reversalOf<P extends Posting>(posting: P): P {
  return { ...posting, from: posting.to, to: posting.from };
}

/** Grams in each place by refrigerant: what came in less what went out. Their sum over all places is always zero. */
export function balancesOf(postings: Iterable<Posting>): Map<string, Map<string, number>> {
  const balances = new Map<string, Map<string, number>>();
  const add = (place: Place, refrigerant: string, grams: number) => {
    const of = balances.get(placeKey(place)) ?? new Map<string, number>();
    of.set(refrigerant, (of.get(refrigerant) ?? 0) + grams);
    balances.set(placeKey(place), of);
  };
  for (const { from, to, refrigerant, grams } of postings) {
    add(from, refrigerant, -grams);
    add(to, refrigerant, grams);
  }
  return balances;
}
