import type { PressureReading, VacuumReading } from "@/lib/hvac/procedure";
import type { TraceId } from "@/lib/ids";
import type { KnownTrace, LiveTrace } from "@/lib/sync/device";
import { pressureReadingsOf, vacuumReadingsOf } from "@/lib/sync/trace";

/** Where a form keeps its readings, before and after recording. */
export interface KeptReadings<R> {
  readonly kept?: "inline" | "trace";
  readonly readings?: readonly R[];
  readonly trace?: { readonly traceId: TraceId; readonly sampleCount: number };
}
type Traces = ReadonlyMap<TraceId, KnownTrace>;

const none: readonly never[] = [];

/** @param growing the draft's trace that an instrument is writing, where one is */
export function vacuumReadings(record: unknown, traces: Traces, growing?: unknown): readonly VacuumReading[] {
  if (growing) return vacuumReadingsOf(soFar(growing as LiveTrace, traces));
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

/** What is on disk of a growing trace, and the tail that is not. */
function soFar({ traceId, unit, tail }: LiveTrace, traces: Traces): KnownTrace {
  const kept = traces.get(traceId);
  const lastMs = kept?.samples.at(-1)?.atMs ?? Number.NEGATIVE_INFINITY;
  const samples = [...(kept?.samples ?? []), ...tail.filter(({ atMs }) => atMs > lastMs)];
  return { unit, samples, chunkDigests: kept?.chunkDigests ?? [] };
}

export const emptyRecord = { kept: "inline", readings: [] } as const;
