import { judgePressureTest } from "@/lib/hvac/pressure-test/judge-pressure-test";
import { expectedGaugePa } from "@/lib/hvac/pressure-test/plan-pressure-test";
import type { PressureTestRecord } from "@/lib/hvac/pressure-test/record";
import { simulatePressureTest } from "./simulated-test";
import { twoBodyTest } from "./two-body-test";

export interface ErrorRates {
  count: number;
  falsePasses: number;
  accused: number;
  sound: number;
  /** Sound, and the interval itself lies under 0.7 of the limit: the record could show it. */
  provablySound: number;
  heldBack: number;
  /** Leaking, and the interval itself lies above 1.5 of the limit. */
  provablyLeaking: number;
  named: number;
  covered: number;
  overPressureMissed: number;
  twoPointPasses: number;
  twoPointHeldBack: number;
  milliseconds: number[];
}

/** What the judge and the two-point rule get wrong on simulated tests with known truth. */
export function pressureTestErrorRates(kind: "one-body" | "two-body", from: number, to: number): ErrorRates {
  const rates: ErrorRates = {
    count: 0,
    falsePasses: 0,
    accused: 0,
    sound: 0,
    provablySound: 0,
    heldBack: 0,
    provablyLeaking: 0,
    named: 0,
    covered: 0,
    overPressureMissed: 0,
    twoPointPasses: 0,
    twoPointHeldBack: 0,
    milliseconds: [],
  };
  for (let seed = from; seed < to; seed++) {
    const simulated =
      kind === "one-body" ? simulatePressureTest(seed) : { ...twoBodyTest(seed), fault: "none" as const };
    const { record, trueLeakPaPerS, fault } = simulated;
    const startedMs = performance.now();
    const { verdict, leak } = judgePressureTest(record);
    rates.milliseconds.push(performance.now() - startedMs);
    if ((verdict === "over-pressure") !== (fault === "over-pressure")) rates.overPressureMissed++;
    if (fault !== "none") continue;
    rates.count++;
    const limit = record.criteria.maxLeakPaPerS;
    const [low, high] = leak!.interval95PaPerS;
    if (low <= trueLeakPaPerS && trueLeakPaPerS <= high) rates.covered++;
    const passes = twoPointPasses(record);
    if (trueLeakPaPerS > limit) {
      if (verdict === "tight") rates.falsePasses++;
      if (passes) rates.twoPointPasses++;
      if (low > 1.5 * limit) rates.provablyLeaking++;
      if (low > 1.5 * limit && verdict === "leaking") rates.named++;
    } else {
      rates.sound++;
      if (verdict === "leaking") rates.accused++;
      if (high >= 0.7 * limit) continue;
      rates.provablySound++;
      if (verdict !== "tight") rates.heldBack++;
      if (!passes) rates.twoPointHeldBack++;
    }
  }
  return rates;
}

/** The rule it replaces: first and last reading, corrected for the air's temperature, against the allowed loss. */
function twoPointPasses({ readings, atmosphericPa, criteria }: PressureTestRecord): boolean {
  const first = readings[0]!;
  const last = readings[readings.length - 1]!;
  const lossPa = expectedGaugePa(first, atmosphericPa, last.temperatureK) - last.gaugePa;
  return lossPa <= criteria.maxLeakPaPerS * (last.atS - first.atS);
}
