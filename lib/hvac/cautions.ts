import type { StepId } from "./log/step";
import { isFlammable, type SafetyClass } from "./refrigerants/refrigerant";
import { CAUTIONS, type Caution } from "./rules/cautions";

export type { Caution } from "./rules/cautions";

/** Stands under every list of cautions. */
export const DEFERRAL_LINE =
  "For licensed and certified people. The equipment maker's instructions, the local code, the authority having jurisdiction and your employer's safety rules go before anything shown here.";

/**
 * The usual cautions of a step, gravest first; those for flammable or toxic refrigerants only where they apply.
 *
 * A safety class that is not known is treated as the worst: every caution is shown.
 */
export function cautionsFor(step: StepId, safetyClass: SafetyClass | null): readonly Caution[] {
  return CAUTIONS.filter(({ steps, only }) => {
    if (!steps.includes(step)) return false;
    if (only === undefined || safetyClass === null) return true;
    if (only === "toxic") return safetyClass.startsWith("B");
    return only === "flammable" ? isFlammable(safetyClass) : safetyClass.endsWith("3");
  });
}
