import type { PressureReading, TraceShelf, VacuumReading } from "@/lib/hvac/procedure";
import { paToMicron, toPa } from "@/lib/hvac/units";
import type { TraceId } from "@/lib/ids";
import { digestOf } from "./digest";
import type { TraceSample, TraceUnit } from "./trace-chunk";

/** A trace as far as it is known here: raw samples in the unit they came in, and the digests of the chunks they came from. */
export interface KnownTrace {
  readonly unit: TraceUnit;
  readonly samples: readonly TraceSample[];
  readonly chunkDigests: readonly string[];
}

/** The digest an entry names its trace by: over the digests of its chunks, in order. */
export function traceDigest(chunkDigests: readonly string[]): string {
  return digestOf(chunkDigests);
}

/** The samples as readings of a vacuum gauge, seconds from the first one. */
export function vacuumReadingsOf({ unit, samples }: KnownTrace): VacuumReading[] {
  const startMs = samples[0]?.atMs ?? 0;
  return samples.map(({ atMs, value, temperatureC }) => ({
    s: (atMs - startMs) / 1000,
    micron: unit === "micron" ? value : paToMicron(toPa(value, unit)),
    ...(temperatureC !== undefined && { temperatureC }),
  }));
}

/** The samples as readings of a pressure gauge, seconds from the first one; a sample without a temperature is none. */
export function pressureReadingsOf({ unit, samples }: KnownTrace): PressureReading[] {
  const startMs = samples[0]?.atMs ?? 0;
  return samples.flatMap(({ atMs, value, temperatureC }) =>
    temperatureC === undefined
      ? []
      : [{ s: (atMs - startMs) / 1000, kPaGauge: toPa(value, unit) / 1000, temperatureC }],
  );
}

/** The traces of a job in the form the fold reads. */
export function traceShelf(traces: ReadonlyMap<TraceId, KnownTrace>): TraceShelf {
  return new Map(
    [...traces].map(([id, trace]) => [
      id,
      {
        digest: traceDigest(trace.chunkDigests),
        sampleCount: trace.samples.length,
        ...(VACUUM_UNITS.includes(trace.unit)
          ? { vacuum: vacuumReadingsOf(trace) }
          : { pressure: pressureReadingsOf(trace) }),
      },
    ]),
  );
}

const VACUUM_UNITS: readonly TraceUnit[] = ["micron", "Pa", "mbar", "Torr"];
