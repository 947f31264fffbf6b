import { nitrogenPressureAtTemperaturePa } from "../nitrogen";
import type { PressureTestJudgement, PressureTestReason, PressureTestRecord } from "./record";

/** Verdict on a standing nitrogen test. First version: first and last reading, with what settling gas may hide. */
export function judgePressureTest(record: PressureTestRecord): PressureTestJudgement {
  const { readings, criteria, gauge, atmosphericPa } = record;
  const first = readings[0];
  const last = readings[readings.length - 1];
  if (readings.some((reading) => reading.gaugePa > record.maxTestGaugePa)) {
    const reason = {
      code: "above-limit",
      text: "A reading is above the limit of the weakest part connected: lower the pressure and check that part.",
    } as const;
    return { verdict: "over-pressure", reasons: [reason], leak: null, compensatedChangePa: null };
  }
  if (first === undefined || last === undefined || readings.length < 3) {
    const reason = { code: "too-few-readings", text: "Take at least three readings." } as const;
    return { verdict: "unproven", reasons: [reason], leak: null, compensatedChangePa: null };
  }
  const startAbsPa = first.gaugePa + atmosphericPa;
  const expectedPa = nitrogenPressureAtTemperaturePa(startAbsPa, first.temperatureK, last.temperatureK) - atmosphericPa;
  const changePa = last.gaugePa - expectedPa;
  const durationS = Math.max(last.atS - first.atS, 1);
  const perKelvinPa = startAbsPa / first.temperatureK;
  const gasOffK = 12 * Math.exp(-durationS / 1800) + Math.abs(last.temperatureK - first.temperatureK) / 2;
  const uncertainPa =
    2 * Math.hypot(gauge.resolutionPa, perKelvinPa * record.temperatureAccuracyK) + perKelvinPa * gasOffK;
  const low = Math.max(0, (-changePa - uncertainPa) / durationS);
  const high = Math.max(0, (-changePa + uncertainPa) / durationS);
  const paPerS = Math.max(0, -changePa / durationS);
  const reasons: PressureTestReason[] = [];
  if (first.gaugePa < criteria.testGaugePa) {
    reasons.push({
      code: "below-test-pressure",
      text: "The test pressure was not reached: fill to it and start again.",
    });
  }
  if (durationS < criteria.holdS) reasons.push({ code: "hold-too-short", text: "Keep holding until the time is up." });
  if (high > criteria.maxLeakPaPerS && low <= criteria.maxLeakPaPerS) {
    reasons.push({
      code: "leak-not-bounded",
      text: "The record cannot yet rule out a leak above the limit: keep holding.",
    });
  }
  if (low > criteria.maxLeakPaPerS) {
    reasons.unshift({ code: "leak-above-limit", text: "The circuit leaks: find the leak, repair it and test again." });
  }
  const verdict = low > criteria.maxLeakPaPerS ? "leaking" : reasons.length > 0 ? "unproven" : "tight";
  if (verdict === "tight") reasons.push({ code: "leak-within-limit", text: "No leak above the limit." });
  const throughputPaM3PerS = paPerS * record.internalVolumeM3;
  return {
    verdict,
    reasons,
    leak: { paPerS, interval95PaPerS: [low, high], throughputPaM3PerS },
    compensatedChangePa: changePa,
  };
}
