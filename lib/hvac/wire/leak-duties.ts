import * as z from "zod";
import { ok } from "@/lib/result";
import { daysBetween } from "../calendar-day";
import { euRecheckAfterRepair, nextEuLeakCheck, planEuLeakChecks } from "../leak-checks-eu";
import { judgeLeakRate, verificationState } from "../leak-duties";
import { annualizedLeakRate, leakRulePart, rollingLeakRate } from "../leak-rate";
import { estimateLeakSize } from "../leak-size";
import { globalWarmingPotential } from "../refrigerants/global-warming";
import { micronToPa, toPa } from "../units";
import { type Answer, calendarDay, knownRefrigerant, nonNegative, positive, questionId, refuse } from "./answer";

/** Asks for the US leak rate on the day of the last top-up, and what is due; top-ups in any order. */
export const leakRateQuestion = z.strictObject({
  id: questionId,
  method: z.enum(["annualizing", "rolling"]),
  use: z.enum([
    "industrial-process-refrigeration",
    "commercial-refrigeration",
    "comfort-cooling",
    "refrigerated-transport",
    "other",
  ]),
  refrigerant: knownRefrigerant,
  fullChargeKg: positive,
  topUps: z
    .array(z.strictObject({ date: calendarDay, addedKg: nonNegative }))
    .min(1)
    .max(10_000),
  verifiedOn: calendarDay.exactOptional(),
  processShutdownNeeded: z.boolean().default(false),
  residentialOrLightCommercial: z.boolean().default(false),
});

export function answerLeakRate(question: z.output<typeof leakRateQuestion>): Answer<object> {
  const { id, method, use, refrigerant, fullChargeKg, verifiedOn } = question;
  const events = serviceEvents(question.topUps);
  const last = events[events.length - 1]!;
  const before = events[events.length - 2];
  const daysSince = before === undefined ? null : daysBetween(before.date, last.date);
  const rate =
    method === "annualizing"
      ? annualizedLeakRate(last.addedKg, fullChargeKg, daysSince)
      : rollingLeakRate(events, fullChargeKg, last.date, verifiedOn);
  if (!rate.ok) return refuse(rate.error.code, "topUps", "the leak rate has no meaning for these numbers");
  const part = leakRulePart({
    ozoneDepleting: refrigerant.family === "HCFC",
    gwp: globalWarmingPotential(refrigerant, "us-40cfr84"),
    fullChargeKg,
    use,
    residentialOrLightCommercial: question.residentialOrLightCommercial,
    date: last.date,
  });
  const year = last.date.slice(0, 4);
  const addedThisYearKg = events.reduce((sum, { date, addedKg }) => sum + (date.startsWith(year) ? addedKg : 0), 0);
  const { leakFraction, triggerFraction, ...judged } = judgeLeakRate({
    part,
    use,
    leakFraction: rate.value,
    fullChargeKg,
    date: last.date,
    processShutdownNeeded: question.processShutdownNeeded,
    addedThisYearKg,
  });
  return ok({
    id,
    part,
    leakPercentPerYear: leakFraction * 100,
    triggerPercentPerYear: triggerFraction === null ? null : triggerFraction * 100,
    ...judged,
  });
}

/** Several top-ups on one day are one service event. */
function serviceEvents(topUps: readonly { readonly date: string; readonly addedKg: number }[]) {
  const byDate = new Map<string, number>();
  for (const { date, addedKg } of topUps) byDate.set(date, (byDate.get(date) ?? 0) + addedKg);
  return [...byDate].sort(([a], [b]) => (a < b ? -1 : 1)).map(([date, addedKg]) => ({ date, addedKg }));
}

/** Asks where the two verification tests of a repair stand. */
export const verificationQuestion = z.strictObject({
  id: questionId,
  repairedOn: calendarDay,
  initialTestOn: calendarDay.nullable(),
  initialTestPassed: z.boolean(),
  normalOperationOn: calendarDay.nullable(),
  followUpTestOn: calendarDay.nullable(),
  followUpTestPassed: z.boolean(),
});

export function answerVerification({ id, ...record }: z.output<typeof verificationQuestion>) {
  return ok({ id, ...verificationState(record) });
}

/** Asks how often a circuit is checked for leaks in the EU. */
export const euLeakCheckQuestion = z.strictObject({
  id: questionId,
  refrigerant: knownRefrigerant,
  chargeKg: positive,
  detectionSystem: z.boolean().default(false),
  hermeticLabelled: z.boolean().default(false),
  lastCheckedOn: calendarDay.exactOptional(),
  leakRepairedOn: calendarDay.exactOptional(),
});

export function answerEuLeakCheck(question: z.output<typeof euLeakCheckQuestion>) {
  const { id, lastCheckedOn, leakRepairedOn, ...circuit } = question;
  const plan = planEuLeakChecks(circuit);
  return ok({
    id,
    ...plan,
    ...(lastCheckedOn !== undefined && { nextCheck: nextEuLeakCheck(plan, lastCheckedOn) }),
    ...(leakRepairedOn !== undefined && { recheck: euRecheckAfterRepair(leakRepairedOn) }),
  });
}

/** Asks what a steady rise under vacuum would mean with the circuit charged. */
export const leakSizeQuestion = z.strictObject({
  id: questionId,
  refrigerant: knownRefrigerant,
  internalVolumeL: positive,
  riseMicronPerMin: nonNegative,
  operatingKPaAbs: positive.max(20_000),
});

export function answerLeakSize(question: z.output<typeof leakSizeQuestion>) {
  const { id, refrigerant } = question;
  const size = estimateLeakSize({
    risePaPerS: micronToPa(question.riseMicronPerMin) / 60,
    internalVolumeM3: question.internalVolumeL / 1000,
    refrigerant,
    operatingPressureAbsPa: toPa(question.operatingKPaAbs, "kPa"),
  });
  return ok({
    id,
    refrigerant: refrigerant.name,
    pascalLitrePerSecond: size.throughputPaM3PerS * 1000,
    mbarLitrePerSecond: size.throughputMbarLPerS,
    lostGramPerYear: size.lostPerYearKg * 1000,
  });
}
