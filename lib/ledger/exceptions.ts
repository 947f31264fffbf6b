import { cylinderLimit } from "@/lib/hvac/cylinder";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { CHARGE_SCALE_ACCURACY_KG } from "@/lib/hvac/rules/charging";
import { asStamped, type CylinderInBooks, totalGrams } from "./objections";
import { toGrams } from "./posting";

export interface CylinderToCheck extends CylinderInBooks {
  readonly id: string;
  /** What the scale last showed, gross grams; null where it was never weighed on a job. */
  readonly lastScaleGrams: number | null;
}
export interface CircuitToCheck {
  readonly id: string;
  readonly name: string;
  readonly fullChargeGrams: number | null;
  readonly grams: Readonly<Record<string, number>>;
}

export type BookException = {
  readonly code:
    | "cylinder-below-nothing"
    | "cylinder-overfilled"
    | "cylinder-two-refrigerants"
    | "cylinder-off-the-scale"
    | "cylinder-several-owners"
    | "circuit-below-nothing"
    | "circuit-over-full-charge"
    | "unnamed-cylinder";
  readonly subject: "cylinder" | "circuit" | "unnamed";
  readonly subjectId: string | null;
  readonly name: string;
  readonly refrigerant: string | null;
  /** How far it is off, in grams: signed as book less truth. */
  readonly grams: number;
  readonly text: string;
};

/** The scale may be off by this much before a difference is one. @source the charging scale's accuracy of the rules */
export const SCALE_TOLERANCE_GRAMS = toGrams(CHARGE_SCALE_ACCURACY_KG);

/** Everything in the books that cannot be so: each is shown until a person has settled it, none is rounded away. */
export function findExceptions(of: {
  readonly cylinders: readonly CylinderToCheck[];
  readonly circuits: readonly CircuitToCheck[];
  readonly unnamed: Readonly<Record<string, number>>;
}): BookException[] {
  const found = [
    ...Object.entries(of.unnamed)
      .filter(([, grams]) => grams !== 0)
      .map(([refrigerant, grams]): BookException => {
        const text =
          grams > 0
            ? "Weighed into a cylinder nobody named. Say which it was."
            : "Weighed in from a cylinder nobody named. Say which it was.";
        const name = "A cylinder not in the register";
        return { code: "unnamed-cylinder", subject: "unnamed", subjectId: null, name, refrigerant, grams, text };
      }),
    ...of.cylinders.flatMap(cylinderExceptions),
    ...of.circuits.flatMap(circuitExceptions),
  ];
  return found.sort((a, b) => Math.abs(b.grams) - Math.abs(a.grams));
}

function cylinderExceptions(cylinder: CylinderToCheck): BookException[] {
  const { id: subjectId, label: name } = cylinder;
  const found: BookException[] = [];
  const say = (code: BookException["code"], refrigerant: string | null, grams: number, text: string) =>
    found.push({ code, subject: "cylinder", subjectId, name, refrigerant, grams, text });
  const held = Object.entries(cylinder.grams).filter(([, grams]) => grams > 0);
  for (const [refrigerant, grams] of Object.entries(cylinder.grams))
    if (grams < 0)
      say("cylinder-below-nothing", refrigerant, grams, "more went out than the books put in. Weigh it, and count it.");
  if (held.length > 1 && cylinder.contents !== "mixed-or-unknown")
    say(
      "cylinder-two-refrigerants",
      held.map(([refrigerant]) => refrigerant).join(" and "),
      totalGrams(cylinder),
      "two refrigerants in one cylinder: mark it as a mixture, for a reclaimer.",
    );
  const refrigerant = held.length === 1 ? findRefrigerant(held[0]![0]) : undefined;
  const limit = refrigerant && cylinderLimit(asStamped(cylinder), refrigerant);
  const over = limit?.ok ? totalGrams(cylinder) - Math.floor(limit.value.netKg * 1000) : 0;
  if (over > 0)
    say("cylinder-overfilled", refrigerant!.name, over, "over its fill limit: keep it cool, move the surplus now.");
  if (cylinder.lastScaleGrams !== null) {
    const off = toGrams(cylinder.tareKg) + totalGrams(cylinder) - cylinder.lastScaleGrams;
    if (Math.abs(off) > SCALE_TOLERANCE_GRAMS)
      say("cylinder-off-the-scale", null, off, "the books and the last weighing differ. Weigh it again, and count it.");
  }
  if (cylinder.owners.length > 1)
    say("cylinder-several-owners", null, totalGrams(cylinder), "of several owners: only a reclaimer may take it.");
  return found;
}

function circuitExceptions({ id: subjectId, name, grams, fullChargeGrams }: CircuitToCheck): BookException[] {
  return Object.entries(grams).flatMap(([refrigerant, held]): BookException[] => {
    const about = { subject: "circuit", subjectId, name, refrigerant } as const;
    if (held < 0) {
      const text =
        fullChargeGrams === null
          ? "more came out than the books put in: its full charge is not on record."
          : "more came out than the books put in. Check its full charge and the weighings.";
      return [{ ...about, code: "circuit-below-nothing", grams: held, text }];
    }
    const over = fullChargeGrams === null ? 0 : held - fullChargeGrams;
    if (over <= SCALE_TOLERANCE_GRAMS) return [];
    const text = "holds more than its full charge by the books: it leaked and was topped up, or it is overcharged.";
    return [{ ...about, code: "circuit-over-full-charge", grams: over, text }];
  });
}
