import * as z from "zod";
import { nonNegative, positive, text } from "./circuit-schema";

/** Whose criterion it is. Law is the floor; the maker replaces our default; a company only tightens. */
export const criteriaOrigin = z.enum(["law", "maker", "company", "default"]);

const gasBreak = z.strictObject({ toMicron: positive, breakGas: z.literal("nitrogen") });

export const evacuateValues = z.strictObject({
  targetMicron: positive,
  /** Minutes of pumping after the target is reached. */
  dwellMinutes: nonNegative.nullable(),
  preCycles: z.array(gasBreak).max(10),
});
export const holdValues = z.strictObject({
  targetMicron: positive,
  holdMinutes: positive,
  maxFinalMicron: positive,
  maxSteadyRiseMicronPerMin: positive,
  failAtMicron: positive.nullable(),
});
export const pressureTestValues = z.strictObject({
  testPressureKPaGauge: positive,
  holdMinutes: positive,
  maxLeakKPaPerHour: positive,
});
export const leakCheckValues = z.strictObject({ maxSensitivityGramPerYear: positive });

export const criteriaValues = z.discriminatedUnion("step", [
  z.strictObject({ step: z.literal("evacuate"), values: evacuateValues }),
  z.strictObject({ step: z.literal("hold"), values: holdValues }),
  z.strictObject({ step: z.literal("pressure_test"), values: pressureTestValues }),
  z.strictObject({ step: z.literal("leak_check"), values: leakCheckValues }),
]);

/** One criteria row of a job: what is asked, who asks it, and where it is written. */
export const criteriaRow = z.strictObject({
  rowId: text(60),
  origin: criteriaOrigin,
  source: text(500),
  criteria: criteriaValues,
});
