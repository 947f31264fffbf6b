import { judgePressureTest } from "@/lib/hvac/pressure-test/judge-pressure-test";
import { expectedGaugePa } from "@/lib/hvac/pressure-test/plan-pressure-test";
import type { PressureTestRecord } from "@/lib/hvac/pressure-test/record";
import { KIND_NAMES, testOfKind } from "./kinds-of-test";
import { simulatePressureTest } from "./simulated-test";
import { twoBodyTest } from "./two-body-test";

export type Simulator = "one-body" | "two-body" | "every-kind";

export interface ErrorRates {
  count: number;
  falsePasses: number;
  accused: number;
  sound: number;
  /** Sound, and the record could show it: see `provable` below. */
  provablySound: number;
  heldBack: number;
  provablyLeaking: number;
  named: number;
  covered: number;
  overPressureMissed: number;
  twoPointPasses: number;
  twoPointHeldBack: number;
  milliseconds: number[];
  /** Width of the interval against that of one who knows the laws at work, where such a one was asked. */
  widths: number[];
}

/** What the judge and the two-point rule get wrong on simulated tests with known truth. */
export function pressureTestErrorRates(simulator: Simulator, from: number, to: number): ErrorRates {
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
    widths: [],
  };
  for (let seed = from; seed < to; seed++) {
    const { record, trueLeakPaPerS, fault, bestSdPaPerS } = simulate(simulator, seed);
    const startedMs = performance.now();
    const { verdict, leak } = judgePressureTest(record);
    rates.milliseconds.push(performance.now() - startedMs);
    if ((verdict === "over-pressure") !== (fault === "over-pressure")) rates.overPressureMissed++;
    const limit = record.criteria.maxLeakPaPerS;
    // A pass that should not have been is one whatever else went on; the rest is asked of tests nobody meddled with.
    if (trueLeakPaPerS > limit && verdict === "tight") rates.falsePasses++;
    if (fault !== "none") continue;
    rates.count++;
    const [low, high] = leak!.interval95PaPerS;
    if (low <= trueLeakPaPerS && trueLeakPaPerS <= high) rates.covered++;
    if (bestSdPaPerS !== null && low > 0) rates.widths.push((high - low) / (2 * 1.96 * bestSdPaPerS));
    const passes = twoPointPasses(record);
    if (trueLeakPaPerS > limit) {
      if (passes) rates.twoPointPasses++;
      const provable = bestSdPaPerS === null ? low > 1.5 * limit : trueLeakPaPerS - PROVABLE * bestSdPaPerS > limit;
      if (provable) rates.provablyLeaking++;
      if (provable && verdict === "leaking") rates.named++;
    } else {
      rates.sound++;
      if (verdict === "leaking") rates.accused++;
      const provable = bestSdPaPerS === null ? high < 0.7 * limit : trueLeakPaPerS + PROVABLE * bestSdPaPerS < limit;
      if (!provable) continue;
      rates.provablySound++;
      if (verdict !== "tight") rates.heldBack++;
      if (!passes) rates.twoPointHeldBack++;
    }
  }
  return rates;
}

/** So many standard deviations of the best estimate between leak and limit prove it; without one, the interval decides. */
const PROVABLE = 4;

function simulate(simulator: Simulator, seed: number) {
  if (simulator === "one-body") return { ...simulatePressureTest(seed), bestSdPaPerS: null };
  if (simulator === "two-body") return { ...twoBodyTest(seed), fault: "none" as const, bestSdPaPerS: null };
  const kind = KIND_NAMES[seed % KIND_NAMES.length]!;
  const { made, bestSdPaPerS, ...test } = testOfKind(kind, seed);
  const meddled = made.cylinder === "shut" ? ("none" as const) : made.cylinder;
  // One who knows nothing of sun in the shade or of a second lag is no judge of what a record with them can show.
  const known = made.unseenSunK === 0 && made.slowShare === 0;
  return {
    ...test,
    fault: made.tooHigh ? ("over-pressure" as const) : meddled,
    bestSdPaPerS: known ? bestSdPaPerS : null,
  };
}

/** The rule it replaces: first and last reading, corrected for the air's temperature, against the allowed loss. */
function twoPointPasses({ readings, atmosphericPa, criteria }: PressureTestRecord): boolean {
  const first = readings[0]!;
  const last = readings[readings.length - 1]!;
  const lossPa = expectedGaugePa(first, atmosphericPa, last.temperatureK) - last.gaugePa;
  return lossPa <= criteria.maxLeakPaPerS * (last.atS - first.atS);
}
