import type { PulldownJudgement, PulldownRecord } from "./record";

const HORIZON_S = 4 * 3600;

/** Time to the target while the pump runs. First version: straight line of log pressure through the last quarter. */
export function judgePulldown(record: PulldownRecord): PulldownJudgement {
  const { readings, targetAbsPa } = record;
  const last = readings[readings.length - 1];
  const early = readings[Math.floor(readings.length * 0.75) - 1] ?? readings[0];
  if (last === undefined || early === undefined || last.atS <= early.atS) {
    const reason = { code: "too-early", text: "Too few readings to say: keep the pump running." } as const;
    return {
      etaToTargetS: null,
      interval80S: null,
      finding: "too-early",
      reasons: [reason],
      effectiveSpeedM3PerS: null,
      effectiveLitresPerSecond: null,
    };
  }
  const perS = Math.log(early.pressureAbsPa / last.pressureAbsPa) / (last.atS - early.atS);
  const speed = Math.max(0, perS) * record.internalVolumeM3;
  const speeds = { effectiveSpeedM3PerS: speed, effectiveLitresPerSecond: speed * 1000 };
  if (last.pressureAbsPa <= targetAbsPa) {
    const reason = { code: "reached", text: "The target is reached: isolate the circuit and start the hold." } as const;
    return { etaToTargetS: 0, interval80S: [0, 0], finding: "reached", reasons: [reason], ...speeds };
  }
  const etaS = Math.log(last.pressureAbsPa / targetAbsPa) / perS;
  if (!(perS > 0) || etaS > HORIZON_S) {
    const reason = { code: "stalled", text: "At this pace the target is not reached within four hours." } as const;
    return { etaToTargetS: null, interval80S: null, finding: "stalled", reasons: [reason], ...speeds };
  }
  const reason = { code: "on-course", text: "The pressure is on its way to the target." } as const;
  return { etaToTargetS: etaS, interval80S: [etaS / 2, etaS * 4], finding: "on-course", reasons: [reason], ...speeds };
}
