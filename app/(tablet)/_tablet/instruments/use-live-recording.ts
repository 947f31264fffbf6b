"use client";

import { useEffect, useRef } from "react";
import type { RadioReading } from "@/lib/instruments/radio-gauge";
import { keepTail, type LiveTrace } from "@/lib/sync/device";
import type { TraceSample } from "@/lib/sync/trace-chunk";
import { useDevice } from "../device/device-context";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { useLinkedGauges } from "./linked-gauges";

/** Samples between two chunks: one a minute at 1 Hz, so that a weak link is not spent on requests. */
const CHUNK_SAMPLES = 60;

/**
 * Writes what the linked gauge says into the draft's growing trace, at most once a second and never made up. The tail stands in the
 * draft, which is on disk a quarter second later; each minute it becomes a chunk, and what has been one for a minute leaves it.
 */
export function useLiveRecording(): void {
  const { store, desk } = useDevice();
  const { job } = useJobHere();
  const { draft, set } = useForm();
  const [gauge] = useLinkedGauges();
  const live = draft._live as LiveTrace | undefined;
  const latest = useRef(live);
  latest.current = newest(latest.current, live);
  const traceId = live?.traceId;
  const write = useRef(set);
  write.current = set;
  const isKept = useRef(true);
  const id = job.id;
  useEffect(() => {
    if (!gauge || traceId === undefined) return;
    return gauge.listen((reading) => {
      const now = latest.current;
      const sample = sampleOf(reading);
      const before = now?.tail.at(-1)?.atMs ?? Number.NEGATIVE_INFINITY;
      if (!now || Math.floor(sample.atMs / 1000) <= Math.floor(before / 1000)) return;
      const tail = [...now.tail, sample];
      if (tail.length % CHUNK_SAMPLES === 0)
        keepTail(store, desk, id, { ...now, tail }).then(
          () => {
            isKept.current = true;
          },
          (cause: unknown) => {
            console.error(cause); // no room: said by the banner; the samples stay in the draft
            isKept.current = false;
          },
        );
      const ripe = tail.length >= 3 * CHUNK_SAMPLES && isKept.current;
      latest.current = { ...now, tail: ripe ? tail.slice(CHUNK_SAMPLES) : tail };
      write.current("_live", latest.current);
    });
  }, [gauge, traceId, store, desk, id]);
}

/** The same trace with more in it: a render may still carry the draft of a moment ago. */
function newest(held: LiveTrace | undefined, drawn: LiveTrace | undefined): LiveTrace | undefined {
  if (!held || !drawn || held.traceId !== drawn.traceId) return drawn;
  return (drawn.tail.at(-1)?.atMs ?? 0) > (held.tail.at(-1)?.atMs ?? 0) ? drawn : held;
}

function sampleOf({ atMs, pressureAbsPa, temperatureC }: RadioReading): TraceSample {
  return { atMs, value: pressureAbsPa, ...(temperatureC !== undefined && { temperatureC }) };
}
