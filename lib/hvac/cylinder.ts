import { err, ok, type Result } from "@/lib/result";
import { addDays, addMonths } from "./calendar-day";
import { findRefrigerant, isFlammable, type Refrigerant } from "./refrigerants/refrigerant";
import { bubblePressurePa, liquidDensityKgPerM3 } from "./refrigerants/saturation";
import { CYLINDER_RULE, CYLINDER_SOURCES } from "./rules/cylinders";
import type { Source } from "./rules/source";
import { STANDARD_ATMOSPHERE_PA } from "./units";

export interface Cylinder {
  /** Stamped water capacity: the mass of water it holds. */
  readonly waterCapacityKg: number;
  readonly tareKg: number;
  /** Designation of what is in it or was last in it; null for one evacuated and never used since. */
  readonly contents: string | null;
  /** Last day on which it may be filled, "2028-04-30"; null where the stamp was not read. */
  readonly requalificationDueOn: string | null;
  readonly disposable: boolean;
  readonly damaged: boolean;
  readonly markedForFlammables: boolean;
  /** Stamped service pressure, as gauge pressure (400 psi on a 4BA400). */
  readonly servicePressureGaugePa?: number | undefined;
  /** Net limit on the label, where it has one. */
  readonly labelLimitKg?: number | undefined;
}

export interface CylinderFill {
  /** An intention can be refused; what has happened is recorded and raises an alarm. */
  readonly tense: "intended" | "happened";
  readonly refrigerant: Refrigerant;
  readonly cylinder: Cylinder;
  /** Gross mass with the fill in it: planned, or read on the scale. */
  readonly grossKg: number;
  /** Day of the fill, "2026-11-25". */
  readonly date: string;
}

export type CylinderReasonCode =
  | "within-limit"
  | "over-limit"
  | "liquid-full-when-hot"
  | "below-tare"
  | "other-refrigerant"
  | "requalification-overdue"
  | "requalification-unknown"
  | "disposable"
  | "damaged"
  | "not-for-flammables"
  | "service-pressure-too-low"
  | "limit-unknown";

export interface CylinderReason extends Source {
  readonly code: CylinderReasonCode;
  readonly text: string;
}

export interface CylinderLimit {
  readonly netKg: number;
  readonly grossKg: number;
  readonly source: Source;
}

export interface CylinderJudgement {
  readonly verdict: "accepted" | "refused" | "alarm";
  readonly limit: CylinderLimit | null;
  /** What may still go in; negative when overfilled. */
  readonly roomKg: number | null;
  /** Share of the volume that this mass fills as liquid at 130 F; above 1 the cylinder bursts or vents. */
  readonly hotLiquidFraction: number | null;
  readonly reasons: readonly CylinderReason[];
}

/**
 * Most refrigerant in kg a cylinder may hold: fill fraction x water capacity x specific gravity.
 *
 * @param specificGravity density of the liquid at 77 F relative to water
 * @source AHRI Guideline K
 */
export function maxCylinderFillKg(
  waterCapacityKg: number,
  specificGravity: number,
  fillFraction: number = CYLINDER_RULE.fillFraction,
): number {
  return fillFraction * waterCapacityKg * specificGravity;
}

/**
 * Net and gross limit in kg for this refrigerant: by density, never liquid-full at 130 F, never over the label.
 *
 * R-744 has no liquid density at 77 F within reach: only a label can give its limit.
 */
export function cylinderLimit(cylinder: Cylinder, refrigerant: Refrigerant): Result<CylinderLimit, "limit-unknown"> {
  const candidates: { netKg: number; source: Source }[] = [];
  const density = liquidDensityKgPerM3(refrigerant, CYLINDER_RULE.fillTemperatureK);
  if (density.ok) {
    const specificGravity = density.value / CYLINDER_RULE.waterDensityKgPerM3;
    const netKg = maxCylinderFillKg(cylinder.waterCapacityKg, specificGravity);
    candidates.push({ netKg, source: CYLINDER_SOURCES.fill });
  }
  const hotFull = hotLiquidFraction(cylinder, refrigerant, 1);
  if (hotFull !== null) candidates.push({ netKg: 1 / hotFull, source: CYLINDER_SOURCES.hot });
  if (cylinder.labelLimitKg !== undefined)
    candidates.push({ netKg: cylinder.labelLimitKg, source: { source: "label on the cylinder", mark: "read" } });
  const governs = candidates.reduce<(typeof candidates)[number] | null>(
    (lowest, candidate) => (lowest === null || candidate.netKg < lowest.netKg ? candidate : lowest),
    null,
  );
  if (governs === null) return err("limit-unknown");
  return ok({ ...governs, grossKg: governs.netKg + cylinder.tareKg });
}

/** Whether this fill may be, or may have been, put into this cylinder; every objection is listed. */
export function judgeCylinderFill(fill: CylinderFill): CylinderJudgement {
  const { cylinder, refrigerant, grossKg } = fill;
  const netKg = grossKg - cylinder.tareKg;
  const limit = cylinderLimit(cylinder, refrigerant);
  const hotFraction = hotLiquidFraction(cylinder, refrigerant, netKg);
  const reasons = [...conditionReasons(fill)];
  if (netKg < 0) reasons.push(reason("below-tare", "The gross mass is below the tare: check both.", "fill"));
  if (!limit.ok) {
    const text = "No fill limit is known for this refrigerant: take the one on the cylinder's label.";
    reasons.push(reason("limit-unknown", text, "fill"));
  } else if (netKg > limit.value.netKg * (1 + 1e-9)) {
    const text =
      fill.tense === "intended"
        ? "This would overfill the cylinder: use another one for the rest."
        : "The cylinder is overfilled: keep it cool and move the surplus to another one now.";
    reasons.push({ code: "over-limit", text, ...limit.value.source });
  }
  if (hotFraction !== null && hotFraction >= 1)
    reasons.push(reason("liquid-full-when-hot", "At 130 F the liquid would fill the cylinder and burst it.", "hot"));
  const refusal = fill.tense === "intended" ? "refused" : "alarm";
  const verdict = reasons.length > 0 ? refusal : "accepted";
  if (limit.ok && verdict === "accepted")
    reasons.push({ code: "within-limit", text: "The cylinder is within its fill limit.", ...limit.value.source });
  return {
    verdict,
    limit: limit.ok ? limit.value : null,
    roomKg: limit.ok ? limit.value.netKg - netKg : null,
    hotLiquidFraction: hotFraction,
    reasons,
  };
}

function* conditionReasons({ cylinder, refrigerant, date }: CylinderFill): Generator<CylinderReason> {
  if (cylinder.disposable) yield reason("disposable", "A disposable cylinder is never refilled.", "disposable");
  if (cylinder.damaged)
    yield reason("damaged", "A dented, corroded or unmarked cylinder is not filled.", "requalification");
  if (cylinder.contents !== null && findRefrigerant(cylinder.contents)?.name !== refrigerant.name)
    yield reason(
      "other-refrigerant",
      `It holds ${cylinder.contents}: one cylinder, one refrigerant.`,
      "oneRefrigerant",
    );
  const dueOn = cylinder.requalificationDueOn;
  if (dueOn === null)
    yield reason("requalification-unknown", "Read the requalification stamp before filling.", "requalification");
  else if (date > dueOn)
    yield reason("requalification-overdue", `Requalification was due by ${dueOn}.`, "requalification");
  if (isFlammable(refrigerant.safetyClass) && !cylinder.markedForFlammables)
    yield reason("not-for-flammables", `${refrigerant.name} needs a cylinder marked for flammables.`, "flammable");
  const hotPressure = bubblePressurePa(refrigerant, CYLINDER_RULE.hotTemperatureK);
  if (cylinder.servicePressureGaugePa !== undefined && hotPressure.ok) {
    const hotGaugePa = hotPressure.value - STANDARD_ATMOSPHERE_PA;
    if (hotGaugePa > CYLINDER_RULE.hotPressureFactor * cylinder.servicePressureGaugePa)
      yield reason(
        "service-pressure-too-low",
        `${refrigerant.name} needs a cylinder of higher service pressure.`,
        "pressure",
      );
  }
}

/**
 * Last day on which a cylinder may be filled, from its stamp, "2023-04".
 *
 * @source 49 CFR 180.209 Table 1: five years unless the cylinder's own conditions allow more (memory)
 */
export function requalificationDueOn(stampedMonth: string, years: number = CYLINDER_RULE.requalificationYears): string {
  return addDays(addMonths(`${stampedMonth}-01`, 12 * years + 1), -1);
}

function hotLiquidFraction(cylinder: Cylinder, refrigerant: Refrigerant, netKg: number): number | null {
  const density = liquidDensityKgPerM3(refrigerant, CYLINDER_RULE.hotTemperatureK);
  if (!density.ok) return null;
  const volumeM3 = cylinder.waterCapacityKg / CYLINDER_RULE.waterDensityKgPerM3;
  return netKg / (density.value * volumeM3);
}

function reason(code: CylinderReasonCode, text: string, source: keyof typeof CYLINDER_SOURCES): CylinderReason {
  return { code, text, ...CYLINDER_SOURCES[source] };
}
