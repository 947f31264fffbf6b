import { type Cylinder, type CylinderJudgement, judgeCylinderFill } from "@/lib/hvac/cylinder";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import type { Source } from "@/lib/hvac/rules/source";
import { MIXED, UNKNOWN } from "./posting";

/** A cylinder as the books and the register hold it on a day. */
export interface CylinderInBooks {
  readonly label: string;
  readonly contents: "new" | "recovered" | "reclaimed" | "mixed-or-unknown" | "empty";
  /** What it holds or last held by the register. */
  readonly refrigerant: string | null;
  readonly waterCapacityKg: number;
  readonly tareKg: number;
  readonly requalifyBy: string | null;
  readonly refillable: boolean;
  readonly forFlammables: boolean;
  /** Grams by refrigerant, as the books say. */
  readonly grams: Readonly<Record<string, number>>;
  /** Customers whose recovered refrigerant is in it. */
  readonly owners: readonly string[];
  /** Grams promised to be put in, and to be taken out. */
  readonly reservedIn: number;
  readonly reservedOut: number;
}

export type ObjectionCode =
  | CylinderJudgement["reasons"][number]["code"]
  | "mixture-needs-marked-cylinder"
  | "mixture-cylinder-holds-nothing-else"
  | "several-owners"
  | "other-owner"
  | "not-enough";
export interface Objection extends Source {
  readonly code: ObjectionCode;
  readonly text: string;
}

export const OWNER_SOURCE: Source = {
  source:
    "40 CFR 82.154(d), 84.112: used refrigerant goes to another owner only once reclaimed; Regulation (EU) 2024/573 Article 8",
  mark: "memory",
};
const MIXTURE_SOURCE: Source = {
  source: "reclaim practice: mixtures and unknowns apart, in a marked cylinder",
  mark: "common-practice",
};

export interface Fill {
  /** An intention can be refused; what has happened is recorded and raises an alarm. */
  readonly tense: "intended" | "happened";
  readonly refrigerant: string;
  readonly grams: number;
  /** Whose recovered refrigerant it is; null for new or reclaimed. */
  readonly ownerId: string | null;
  readonly day: string;
}

/** What stands against putting this into that cylinder, everything promised counted in; nothing where it may be. */
export function objectionsToFill(into: CylinderInBooks, fill: Fill): Objection[] {
  const refrigerant = findRefrigerant(fill.refrigerant);
  const objections: Objection[] = [];
  const owners = new Set(fill.ownerId === null ? into.owners : [...into.owners, fill.ownerId]);
  const held = totalGrams(into) + (fill.tense === "intended" ? into.reservedIn : 0);
  if (refrigerant === undefined) objections.push(...mixtureObjections(into));
  else if (into.contents === "mixed-or-unknown")
    objections.push({
      code: "mixture-cylinder-holds-nothing-else",
      text: "This cylinder is marked for mixtures: what goes in comes out as a mixture.",
      ...MIXTURE_SOURCE,
    });
  if (refrigerant !== undefined) {
    const judged = judgeCylinderFill({
      tense: fill.tense,
      refrigerant,
      cylinder: asStamped(into),
      grossKg: into.tareKg + (held + fill.grams) / 1000,
      date: fill.day,
    });
    objections.push(...judged.reasons.filter(({ code }) => code !== "within-limit"));
  }
  if (owners.size > 1)
    objections.push({
      code: "several-owners",
      text: "Recovered refrigerant of several owners in one cylinder can only go to a reclaimer.",
      ...OWNER_SOURCE,
    });
  return objections;
}

/** What stands against taking this out of that cylinder into a circuit of that customer. */
export function objectionsToDraw(
  from: CylinderInBooks,
  draw: { readonly tense: "intended" | "happened"; readonly refrigerant: string; readonly grams: number },
  customerId: string | null,
): Objection[] {
  const objections: Objection[] = [];
  const free = (from.grams[draw.refrigerant] ?? 0) - (draw.tense === "intended" ? from.reservedOut : 0);
  if (draw.grams > free)
    objections.push({
      code: "not-enough",
      text: `The books have ${(Math.max(0, free) / 1000).toFixed(3)} kg of ${draw.refrigerant} free in ${from.label}.`,
      source: "this ledger",
      mark: "own-choice",
    });
  if (from.contents === "mixed-or-unknown" || draw.refrigerant === MIXED || draw.refrigerant === UNKNOWN)
    objections.push({
      code: "mixture-needs-marked-cylinder",
      text: "A mixture or an unknown goes to a reclaimer or to destruction, never into a circuit.",
      ...MIXTURE_SOURCE,
    });
  if (customerId !== null && from.owners.some((owner) => owner !== customerId))
    objections.push({
      code: "other-owner",
      text: "It holds refrigerant recovered from another owner's circuit, and it has not been reclaimed.",
      ...OWNER_SOURCE,
    });
  return objections;
}

function mixtureObjections(into: CylinderInBooks): Objection[] {
  if (into.contents === "mixed-or-unknown") return [];
  const text = "A mixture or an unknown goes only into a cylinder marked for it.";
  return [{ code: "mixture-needs-marked-cylinder", text, ...MIXTURE_SOURCE }];
}

export function totalGrams({ grams }: Pick<CylinderInBooks, "grams">): number {
  return Object.values(grams).reduce((sum, each) => sum + each, 0);
}

/** The cylinder as its collar says it; in the books' view an empty one may be filled with anything it is fit for. */
export function asStamped(cylinder: CylinderInBooks): Cylinder {
  const held = Object.entries(cylinder.grams).find(([, grams]) => grams > 0)?.[0];
  return {
    waterCapacityKg: cylinder.waterCapacityKg,
    tareKg: cylinder.tareKg,
    contents: held ?? cylinder.refrigerant,
    requalificationDueOn: cylinder.requalifyBy,
    disposable: !cylinder.refillable,
    damaged: false,
    markedForFlammables: cylinder.forFlammables,
  };
}
