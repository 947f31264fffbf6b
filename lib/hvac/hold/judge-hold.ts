import type { HoldJudgement } from "./judgement";
import type { HoldReading, HoldRecord, HoldTerms } from "./record";

/** Stored beside every verdict; changes whenever the same record could be judged differently. */
export const HOLD_RULES_VERSION = "hold-0";

/** A hold that is running: readings go in one by one, and it can be judged at any moment. */
export interface RunningHold {
  /** Takes the next reading; its time is not before the one before it. */
  add(reading: HoldReading): void;
  judge(): HoldJudgement;
}

/** A hold at the moment of isolation, before its first reading. */
export function startHold(terms: HoldTerms): RunningHold {
  const { holdS } = terms.criteria;
  let firstS = Number.NaN;
  let lastS = Number.NaN;
  return {
    add(reading) {
      if (Number.isNaN(firstS)) firstS = reading.atS;
      lastS = reading.atS;
    },
    judge() {
      const tooShort = !(lastS - firstS >= holdS);
      const text = "No rise has been judged in this record, so it proves nothing.";
      return {
        rulesVersion: HOLD_RULES_VERSION,
        verdict: "unproven",
        reasons: [{ code: tooShort ? "hold-too-short" : "leak-not-bounded", text }],
        leak: null,
        settlesAt: null,
        smallestLeakShownPaPerS: null,
        band: [],
        nextAction: { code: "wait", text: "Keep the circuit isolated and go on reading the gauge." },
      };
    },
  };
}

/** Whether the isolated circuit is proven dry and tight; any record of rising times gets an answer. */
export function judgeHold(record: HoldRecord): HoldJudgement {
  const hold = startHold(record);
  for (const reading of record.readings) hold.add(reading);
  return hold.judge();
}
