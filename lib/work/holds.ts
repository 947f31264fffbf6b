import type { EvidenceOf, HoldCriteria, JobState, LogEntry, VacuumReading } from "@/lib/hvac/procedure";
import { criteriaInForce } from "@/lib/hvac/procedure";
import type { TraceId } from "@/lib/ids";
import { type KnownTrace, vacuumReadingsOf } from "@/lib/sync/trace";

export interface RecordedHold {
  entry: string;
  deviceAt: string;
  evidence: EvidenceOf<"hold">;
  readings: readonly VacuumReading[];
  criteria: HoldCriteria;
  refrigerant: string;
  deviceVerdict: EvidenceOf<"hold">["deviceVerdict"];
  /** Whether the step rests on this one now. */
  counts: boolean;
}

/** The holds in a log that can be drawn, latest first, under the criteria in force now. */
export function listHolds(job: {
  state: JobState;
  entries: readonly LogEntry[];
  traces: ReadonlyMap<TraceId, KnownTrace>;
}): RecordedHold[] {
  const { state } = job;
  const inForce = criteriaInForce("hold", state.criteria, { circuit: state.circuit, wet: state.wet });
  if (!inForce) return [];
  const restsOn = state.steps.find((step) => step.step === "hold")?.entry;
  const fact = state.circuit?.refrigerant;
  const holds = job.entries.flatMap((entry): RecordedHold[] => {
    if (entry.kind !== "step-recorded" || entry.body.step !== "hold") return [];
    const { evidence } = entry.body;
    const { record } = evidence;
    const trace = record.kept === "trace" ? job.traces.get(record.trace.traceId) : undefined;
    const readings = record.kept === "inline" ? record.readings : trace ? vacuumReadingsOf(trace) : [];
    return [
      {
        entry: entry.id,
        deviceAt: entry.deviceAt,
        evidence,
        readings,
        criteria: inForce.values,
        refrigerant: fact?.state === "identified" ? fact.refrigerant : "unknown",
        deviceVerdict: evidence.deviceVerdict,
        counts: restsOn === entry.id,
      },
    ];
  });
  return holds.reverse();
}
