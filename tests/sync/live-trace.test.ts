import "fake-indexeddb/auto";
import { expect, test } from "vitest";
import type { CompanyId, JobId, PersonId, TraceId } from "@/lib/ids";
import { type Desk, DeviceStore, endLiveTrace, keepTail, listTraces } from "@/lib/sync/device";

const desk: Desk = {
  company: "0198c2f0-0000-7000-8000-000000000001" as CompanyId,
  slug: "north",
  person: "0198c2f0-0000-7000-8000-000000000002" as PersonId,
};
const job = "0198c2f0-0000-7000-8000-000000000003" as JobId;
const traceId = "0198c2f0-0000-7000-8000-000000000004" as TraceId;
const at = (second: number, temperatureC?: number) => ({
  atMs: 1_800_000_000_000 + second * 1000,
  value: 64.2 + second / 10,
  ...(temperatureC !== undefined && { temperatureC }),
});

test("a growing trace is kept once, however often its tail is told, and ends as the reference of all of it", async () => {
  const store = new DeviceStore("live");
  const first = [at(0), at(1), at(2)];
  await keepTail(store, desk, job, { traceId, unit: "Pa", tail: first });
  await keepTail(store, desk, job, { traceId, unit: "Pa", tail: first });
  const whole = [...first, at(40), at(41, 21.5), at(42, 21.5)]; // a gap, then a thermometer that answers
  const reference = await endLiveTrace(store, desk, job, { traceId, unit: "Pa", tail: whole.slice(1) });
  expect(reference).toMatchObject({ traceId, sampleCount: 6 });
  const trace = (await listTraces(store, desk, job)).get(traceId);
  expect(trace?.samples).toEqual(whole);
  expect(trace?.chunkDigests).toHaveLength(3);
  const again = await endLiveTrace(store, desk, job, { traceId, unit: "Pa", tail: whole });
  expect(again).toEqual(reference);
});

test("a trace nobody wrote to has no reference", async () => {
  const store = new DeviceStore("silent");
  expect(await endLiveTrace(store, desk, job, { traceId, unit: "Pa", tail: [] })).toBeNull();
});
