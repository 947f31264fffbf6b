import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { listFallingOutOfDate } from "@/lib/db/exceptions";
import { receiveEntries } from "@/lib/db/receive-entries";
import { type TenantTx, withTenant } from "@/lib/db/tenant";
import { addToolEvent, readToolHistory } from "@/lib/db/tool-history";
import { createTool, findTool, updateTool } from "@/lib/db/tools";
import { EntryId, InstallationId, ToolId } from "@/lib/ids";
import { toolForm } from "@/lib/registry/tool";
import { toolEventForm } from "@/lib/registry/tool-event";
import { shownOf } from "@/lib/registry/tool-shown";
import { headsOf, makeEntry } from "@/lib/sync/protocol";
import { recordOf } from "../hvac/procedure/evidence-samples";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

const inAlder = <T>(work: (tx: TenantTx) => Promise<T>) => withTenant(database.alder.company, work);
const by = () => database.alder.supervisor.personId;

async function add(tx: TenantTx, fields: object): Promise<string> {
  const made = await createTool(tx, toolForm.parse({ serial: "", heldBy: "", ...fields }));
  if (!made.ok) throw new Error(made.error.code);
  return made.value;
}
const event = (fields: object) => toolEventForm.parse({ onDay: "2026-11-20", ...fields });
const installation = InstallationId.parse(uuidv7());
let seq = 0;

/** An evacuation with this pump from eight o'clock, in a log of its own device. */
async function evacuate(
  pump: string,
  hours: number,
  day: string,
  supersedes?: string,
  more: object = {},
): Promise<string> {
  const { company, technician, job } = database.alder;
  const startedAt = `${day}T08:00:00.000Z`;
  const endedAt = new Date(Date.parse(startedAt) + hours * 3_600_000).toISOString();
  const ran = { toolId: ToolId.parse(pump), label: "Pump", litresPerSecond: 2.8, ultimateMicron: 25 };
  const body = recordOf("evacuate", { startedAt, endedAt, blankOffMicron: 40, pump: ran, ...more });
  const id = EntryId.parse(uuidv7());
  seq += 1;
  await inAlder(async (tx) => {
    const author = { company, job, installation, person: technician.personId };
    const heads = supersedes ? [EntryId.parse(supersedes)] : headsOf([]);
    const entry = makeEntry(
      author,
      { id, seq, heads, deviceAt: endedAt, clockOffsetMs: 0 },
      { kind: "step-recorded", body },
    );
    const sent = supersedes ? { ...entry, supersedes: { entry: supersedes, why: "the clock was wrong" } } : entry;
    const { quarantined } = await receiveEntries(tx, technician, [sent]);
    if (quarantined[0]) throw new Error(`${quarantined[0].path} ${quarantined[0].message}`);
  });
  return id;
}
const oilOf = async (pump: string) => (await inAlder((tx) => findTool(tx, pump)))!.oilRunHours;

test("a pump's oil hours grow by what the logs say, shrink by a correction, and start afresh with new oil", async () => {
  const pump = await inAlder((tx) => add(tx, { kind: "pump", name: "Pump", oilRunHours: "2" }));
  const first = await evacuate(pump, 1.5, "2026-11-10");
  expect(await oilOf(pump)).toBeCloseTo(3.5, 9);
  await evacuate(pump, 0.5, "2026-11-10", first);
  expect(await oilOf(pump)).toBeCloseTo(2.5, 9);
  await evacuate(pump, 0.75, "2026-11-22");
  await inAlder((tx) => addToolEvent(tx, pump, event({ what: "oil-changed" }), by()));
  expect(await oilOf(pump)).toBeCloseTo(0.75, 9); // ran after the change that was written down late
  await evacuate(pump, 3, "2026-11-12"); // comes in late, ran on the old oil
  expect(await oilOf(pump)).toBeCloseTo(0.75, 9);
  const { uses, blankOffs } = await inAlder((tx) => readToolHistory(tx, pump));
  expect(uses.map(({ superseded }) => superseded).filter(Boolean)).toHaveLength(1);
  expect(blankOffs).toHaveLength(3);
});

test("new oil said in an evacuation counts from its moment on, is written down once, and is the pump's change", async () => {
  const pump = await inAlder((tx) => add(tx, { kind: "pump", name: "Pump on a roof", oilRunHours: "9" }));
  await evacuate(pump, 1, "2026-11-14");
  expect(await oilOf(pump)).toBeCloseTo(10, 9);
  const entry = await evacuate(pump, 1.25, "2026-11-15", undefined, { oilChangedAt: "2026-11-15T07:45:00.000Z" });
  expect(await oilOf(pump)).toBeCloseTo(1.25, 9); // this pull ran on the new oil
  const { events } = await inAlder((tx) => readToolHistory(tx, pump));
  expect(events.map(({ id, what, onDay, job }) => ({ id, what, onDay, job: job?.id }))).toEqual([
    { id: entry, what: "oil-changed", onDay: "2026-11-15", job: database.alder.job },
  ]);
  await evacuate(pump, 0.5, "2026-11-15", entry, { oilChangedAt: "2026-11-15T07:45:00.000Z" });
  expect(await oilOf(pump)).toBeCloseTo(0.5, 9);
  expect((await inAlder((tx) => readToolHistory(tx, pump))).events).toHaveLength(1);
});

test("a form that was open while a log added hours keeps them, and a corrected count has them on top", async () => {
  const fields = { kind: "pump", name: "Pump in two hands", oilRunHours: "2" };
  const pump = await inAlder((tx) => add(tx, fields));
  const opened = shownOf((await inAlder((tx) => findTool(tx, pump)))!);
  await evacuate(pump, 1.5, "2026-11-10");
  const save = (typed: object) =>
    inAlder((tx) => updateTool(tx, pump, toolForm.parse({ serial: "", heldBy: "", ...fields, ...typed }), opened));
  await save({ name: "Pump, renamed" });
  expect(await oilOf(pump)).toBeCloseTo(3.5, 9);
  await save({ oilRunHours: "4" }); // two hours more than the form showed
  expect(await oilOf(pump)).toBeCloseTo(5.5, 9);
});

test("two gauges too far apart are both in doubt until calibrated, and the supervisor's list says so", async () => {
  const gauge = { kind: "vacuum-gauge", accuracyPercent: "5", resolution: "1", resolutionUnit: "micron" };
  const [one, two, psi] = await inAlder(async (tx) => [
    await add(tx, { ...gauge, name: "One" }),
    await add(tx, { ...gauge, name: "Two" }),
    await add(tx, { ...gauge, name: "In pascal", resolutionUnit: "Pa" }),
  ]);
  const compare = (otherToolId: string, otherReading: string) =>
    inAlder((tx) =>
      addToolEvent(tx, one!, event({ what: "compared", otherToolId, reading: "400", otherReading }), by()),
    );
  expect((await compare(two!, "440")).ok).toBe(true);
  expect((await inAlder((tx) => findTool(tx, one!)))!.doubtedOn).toBeNull();
  await compare(two!, "460");
  const falling = await inAlder((tx) => listFallingOutOfDate(tx, "2026-12-28"));
  expect(
    falling
      .filter(({ what }) => what === "doubt")
      .map(({ name }) => name)
      .sort(),
  ).toEqual(["One", "Two"]);
  await inAlder((tx) => addToolEvent(tx, one!, event({ what: "calibrated", dueOn: "2027-11-20" }), by()));
  expect(await inAlder((tx) => findTool(tx, one!))).toMatchObject({ doubtedOn: null, calibrationDueOn: "2027-11-20" });
  expect(await compare(psi!, "400")).toEqual({ ok: false, error: { code: "no-such-tool" } });
});

test("what happened later is not undone by an older calibration written down after it", async () => {
  const gauge = await inAlder((tx) => add(tx, { kind: "scale", name: "Scale" }));
  await inAlder(async (tx) => {
    await addToolEvent(tx, gauge, event({ what: "calibrated", dueOn: "2027-11-20" }), by());
    await addToolEvent(tx, gauge, event({ what: "calibrated", onDay: "2025-11-20", dueOn: "2026-11-20" }), by());
  });
  expect((await inAlder((tx) => findTool(tx, gauge)))!.calibrationDueOn).toBe("2027-11-20");
});

test("a tool of another company is none, to write on or to compare with", async () => {
  const theirs = await withTenant(database.birch.company, (tx) => add(tx, { kind: "scale", name: "Theirs" }));
  const checked = await inAlder((tx) => addToolEvent(tx, theirs, event({ what: "calibrated" }), by()));
  expect(checked).toEqual({ ok: false, error: { code: "not-found" } });
  const ours = await inAlder((tx) => add(tx, { kind: "scale", name: "Ours", resolution: "5", resolutionUnit: "g" }));
  const fields = event({ what: "compared", otherToolId: theirs, reading: "1", otherReading: "1" });
  expect(await inAlder((tx) => addToolEvent(tx, ours, fields, by()))).toEqual({
    ok: false,
    error: { code: "no-such-tool" },
  });
  expect((await inAlder((tx) => readToolHistory(tx, theirs))).events).toEqual([]);
});
