import { paToMicron } from "@/lib/hvac";
import type { JobId } from "@/lib/ids";
import { type Desk, type DeviceStore, endLiveTrace, type LiveTrace } from "@/lib/sync/device";
import { type Draft, valueAt, withValue } from "../form/draft";
import { emptyRecord } from "../steps/readings";
import { linkedGauges } from "./linked-gauges";

const TOGETHER_MS = 5_000;

/**
 * The draft with its growing trace ended and named as an entry names it, and with what a second linked gauge showed beside the first.
 * As it is where no instrument wrote.
 */
export async function settleLive(store: DeviceStore, desk: Desk, job: JobId, draft: Draft): Promise<Draft> {
  const live = draft._live as LiveTrace | undefined;
  if (!live) return draft;
  const trace = await endLiveTrace(store, desk, job, live);
  const settled = { ...draft, record: trace ? { kept: "trace", trace } : emptyRecord };
  const comparison = compareGauges();
  return comparison && valueAt(draft, "gauge") ? withValue(settled, "gauge.comparedWith", comparison) : settled;
}

/** Both gauges' last words when they were spoken together. */
function compareGauges() {
  const [own, other] = linkedGauges().map(({ standing }) => standing);
  if (!own?.last || !other?.last || Math.abs(own.last.atMs - other.last.atMs) > TOGETHER_MS) return null;
  return {
    radioName: other.name,
    micron: paToMicron(other.last.pressureAbsPa),
    ownMicron: paToMicron(own.last.pressureAbsPa),
    at: new Date(own.last.atMs).toISOString(),
  };
}
