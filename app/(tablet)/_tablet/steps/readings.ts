import type { PressureReading, VacuumReading } from "@/lib/hvac/procedure";
import type { TraceId } from "@/lib/ids";
import type { KnownTrace } from "@/lib/sync/device";
import { pressureReadingsOf, vacuumReadingsOf } from "@/lib/sync/trace";

/** Where a form keeps its readings, before and after recording. */
export interface KeptReadings<R> {
  readonly kept?: "inline" | "trace";
  readonly readings?: readonly R[];
  readonly trace?: { readonly traceId: TraceId; readonly sampleCount: number };
}
type Traces = ReadonlyMap<TraceId, KnownTrace>;

const none: readonly never[] = [];

export function vacuumReadings(record: unknown, traces: Traces): readonly VacuumReading[] {
  const kept = (record ?? {}) as KeptReadings<VacuumReading>;
  if (kept.kept !== "trace") return kept.readings ?? none;
  const trace = kept.trace && traces.get(kept.trace.traceId);
  return trace ? vacuumReadingsOf(trace) : none;
}

export function pressureReadings(record: unknown, traces: Traces): readonly PressureReading[] {
  const kept = (record ?? {}) as KeptReadings<PressureReading>;
  if (kept.kept !== "trace") return kept.readings ?? none;
  const trace = kept.trace && traces.get(kept.trace.traceId);
  return trace ? pressureReadingsOf(trace) : none;
}

export const emptyRecord = { kept: "inline", readings: [] } as const;
