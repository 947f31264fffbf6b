import type { EntryId, TraceId } from "@/lib/ids";
import type {
  CircuitFacts,
  CriteriaRow,
  Entry,
  EvidenceOf,
  PressureReading,
  StepRecord,
  TraceReference,
  VacuumReading,
} from "../log/entry";
import { criteriaInForce } from "./criteria";
import {
  type EvidenceGround,
  judgeChargeSetup,
  judgeClose,
  judgeEvacuate,
  judgeLeakCheck,
  judgeMakeSafe,
  judgeOpenRepair,
  judgePressureTestSetup,
  judgeRecords,
  judgeRecoverExtras,
} from "./evidence";
import type { Judges } from "./judge-questions";
import type { Outcome, StepVerdict } from "./verdict";

/** The samples of one trace, as far as they are here. */
export interface Trace {
  readonly digest: string;
  readonly sampleCount: number;
  readonly vacuum?: readonly VacuumReading[];
  readonly pressure?: readonly PressureReading[];
}
export type TraceShelf = ReadonlyMap<TraceId, Trace>;

/** All that bears on one record beside its own evidence. */
export interface JudgeGround extends Omit<EvidenceGround, "circuit" | "flammable"> {
  readonly joints: readonly string[];
  readonly chargedBeforeKg: number;
}
export interface JudgeTools {
  readonly judges: Judges;
  readonly traces: TraceShelf;
  /** Verdicts kept from an earlier judgement, so that a later change of rules does not rewrite a closed job. */
  readonly verdicts?: ReadonlyMap<EntryId, StepVerdict>;
}

export interface FoldTools extends JudgeTools {
  /** Digest over the entries a closing covers and the heads it saw; comes from outside, where the hash lives. */
  readonly closingDigest: (entries: readonly Entry[], heads: readonly EntryId[]) => string;
}

/** The verdict on one record under given facts and criteria. */
export function judgeRecord(
  record: StepRecord,
  circuit: CircuitFacts | null,
  rows: readonly CriteriaRow[],
  ground: JudgeGround,
  tools: JudgeTools,
  flammable: boolean,
): StepVerdict {
  const known: EvidenceGround = { ...ground, circuit, flammable };
  const criteriaGround = { circuit, wet: ground.wet };
  switch (record.step) {
    case "make_safe":
      return judgeMakeSafe(record.evidence, known);
    case "recover": {
      const { evidence } = record;
      return together(tools.judges.recovery({ evidence, circuit }), judgeRecoverExtras(evidence, known));
    }
    case "open_repair":
      return judgeOpenRepair(record.evidence, known);
    case "pressure_test": {
      const { evidence } = record;
      const setup = judgePressureTestSetup(evidence);
      if (setup.outcome === "failed") return setup;
      const readings = readingsOf(evidence.record, tools.traces, "pressure");
      if (!Array.isArray(readings)) return readings as StepVerdict;
      const criteria = criteriaInForce("pressure_test", rows, criteriaGround);
      const maxTestKPaGauge = weakestPartKPaGauge(evidence, circuit);
      if (criteria === null || maxTestKPaGauge === null) return unproven("design-pressure-unknown");
      const question = { evidence, readings, criteria: criteria.values, maxTestKPaGauge, circuit };
      return together(tools.judges.pressureTest(question), setup);
    }
    case "leak_check": {
      const criteria = criteriaInForce("leak_check", rows, criteriaGround);
      return judgeLeakCheck(record.evidence, criteria!.values, ground.joints);
    }
    case "evacuate": {
      const readings = readingsOf(record.evidence.record, tools.traces, "vacuum");
      if (!Array.isArray(readings)) return readings as StepVerdict;
      const criteria = criteriaInForce("evacuate", rows, criteriaGround);
      return judgeEvacuate(record.evidence, readings, criteria!.values, known);
    }
    case "hold": {
      const { evidence } = record;
      const readings = readingsOf(evidence.record, tools.traces, "vacuum");
      if (!Array.isArray(readings)) return readings as StepVerdict;
      const criteria = criteriaInForce("hold", rows, criteriaGround);
      const verdict = tools.judges.hold({ evidence, readings, criteria: criteria!.values, circuit });
      return evidence.pumpIsolated ? verdict : together(verdict, unproven("pump-not-isolated"));
    }
    case "break_and_charge": {
      const { evidence } = record;
      const setup = judgeChargeSetup(evidence, known);
      if (setup.outcome === "failed") return setup;
      const { chargedBeforeKg } = ground;
      return together(tools.judges.charge({ evidence, circuit, chargedBeforeKg }), setup);
    }
    case "close":
      return judgeClose(record.evidence);
    case "performance":
      return tools.judges.performance({ evidence: record.evidence, circuit });
    case "records":
      return judgeRecords(record.evidence, known);
  }
}

const RANK: Readonly<Record<Outcome, number>> = { passed: 0, unproven: 1, failed: 2 };

/** Two verdicts on one record: the worse outcome stands, the first one's name and figures are kept. */
export function together(main: StepVerdict, other: StepVerdict): StepVerdict {
  if (other.outcome === "passed") return main;
  const worse = RANK[other.outcome] > RANK[main.outcome] ? other.outcome : main.outcome;
  return {
    ...main,
    outcome: worse,
    verdict: worse === main.outcome ? main.verdict : other.verdict,
    reasons: [...other.reasons, ...main.reasons],
  };
}

function weakestPartKPaGauge(evidence: EvidenceOf<"pressure_test">, circuit: CircuitFacts | null): number | null {
  const low = circuit?.lowSideDesignKPaGauge ?? null;
  return evidence.lowSideConnected ? low : (circuit?.highSideDesignKPaGauge ?? null);
}

type Kept<R> =
  | { readonly kept: "inline"; readonly readings: readonly R[] }
  | { readonly kept: "trace"; readonly trace: TraceReference };

/** The readings of a record, or the verdict that says why they cannot be had. */
function readingsOf<C extends "vacuum" | "pressure">(
  record: Kept<C extends "vacuum" ? VacuumReading : PressureReading>,
  traces: TraceShelf,
  column: C,
): readonly (C extends "vacuum" ? VacuumReading : PressureReading)[] | StepVerdict {
  if (record.kept === "inline") return record.readings;
  const trace = traces.get(record.trace.traceId);
  const readings = trace?.[column];
  if (trace === undefined || readings === undefined) return unproven("trace-not-here");
  const same = trace.digest === record.trace.digest && trace.sampleCount === record.trace.sampleCount;
  return same
    ? (readings as readonly (C extends "vacuum" ? VacuumReading : PressureReading)[])
    : unproven("trace-differs");
}

const WORDS = {
  "design-pressure-unknown": "The design pressure of the part under test is not known: read it off the nameplate.",
  "trace-not-here": "The readings of this record have not arrived yet.",
  "trace-differs": "The readings here are not the ones this record was made from.",
  "pump-not-isolated": "Close the valve to the pump before the hold.",
} as const;

function unproven(code: keyof typeof WORDS): StepVerdict {
  return {
    outcome: "unproven",
    verdict: "unproven",
    reasons: [{ code, text: WORDS[code] }],
    figures: {},
    rulesVersion: "record-1",
  };
}
