import type { PressureReading, VacuumReading } from "@/lib/hvac/procedure";
import type { TraceId } from "@/lib/ids";
import type { KnownTrace, LiveTrace } from "@/lib/sync/device";
import { pressureReadingsOf, vacuumReadingsOf } from "@/lib/sync/trace";
import type { Draft } from "../form/draft";

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

/** Readings are being taken or were brought: from now on the gauge comes first. */
export function hasBegun(draft: Draft): boolean {
  const record = (draft.record ?? {}) as KeptReadings<unknown>;
  return typeof draft._startMs === "number" || record.kept === "trace" || (record.readings?.length ?? 0) > 0;
}

/** An instrument's own record was brought, as a file or as it sent it. */
export function isBrought(draft: Draft): boolean {
  return hasBegun(draft) && (draft.source === "file" || draft.source === "http");
}

/** What to do now, by where the readings come from; nothing before there are any. */
export function sentenceWhile(draft: Draft, words: { typed: string; byItself: string; brought: string }) {
  if (!hasBegun(draft)) return null;
  return isBrought(draft) ? words.brought : draft._live ? words.byItself : words.typed;
}

export const emptyRecord = { kept: "inline", readings: [] } as const;
