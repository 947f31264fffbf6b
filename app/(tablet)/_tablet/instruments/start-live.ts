import { v7 } from "uuid";
import { paToMicron } from "@/lib/hvac";
import type { TraceId } from "@/lib/ids";
import { PRESSURE_STEP_PA } from "@/lib/instruments/gatt";
import type { RadioGauge } from "@/lib/instruments/radio-gauge";
import type { LiveTrace } from "@/lib/sync/device";
import { type Draft, valueAt } from "../form/draft";

/** From now on the linked gauge writes this step's record: a new trace in Pa as it is received, and its name in the evidence. */
export function startLive(draft: Draft, set: (path: string, value: unknown) => void, gauge: RadioGauge): void {
  const live: LiveTrace = { traceId: v7() as TraceId, unit: "Pa", tail: [] };
  set("source", "bluetooth");
  set("record", { kept: "trace", trace: { traceId: live.traceId, sampleCount: 0, digest: "" } });
  set("gauge.radioName", gauge.standing.name);
  if (valueAt(draft, "gauge.resolutionMicron") === undefined)
    set("gauge.resolutionMicron", Number(paToMicron(PRESSURE_STEP_PA).toFixed(2)));
  set("_live", live);
}
