import { afterAll, beforeAll, expect, test } from "vitest";
import { listFieldDays } from "@/lib/db/field-work";
import { readOrderLines } from "@/lib/db/order-lines";
import { withTenant } from "@/lib/db/tenant";
import { moveVisit, planVisit } from "@/lib/db/visits";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

test("time on site is from the step that arrived to the step that ended, each noted once, and nobody else's order has lines", async () => {
  const { alder, birch } = database;
  const { personId, name } = alder.technician;
  const plan = { window: null, plannedStart: null, plannedMinutes: 60, people: [personId] };
  const visit = await withTenant(alder.company, (tx) => planVisit(tx, alder.workOrderId, plan));
  if (!visit.ok) throw new Error(visit.error.code);
  const since: (Date | null | undefined)[] = [];
  for (const to of ["on-site", "on-site", "done"] as const) {
    const moved = await withTenant(alder.company, (tx) => moveVisit(tx, visit.value, to, personId));
    expect(moved).toEqual({ ok: true, value: to });
    const days = await withTenant(alder.company, (tx) => listFieldDays(tx, personId, "America/Denver", new Date()));
    since.push(days.find(({ id }) => id === visit.value)?.onSiteSince);
  }
  const events = await withTenant(alder.company, (tx) =>
    tx.officeEvent.findMany({ where: { subjectId: visit.value, what: "moved" }, orderBy: { at: "asc" } }),
  );
  expect(events.map(({ detail }) => detail)).toEqual([{ to: "on-site" }, { to: "done" }]);
  expect(since).toEqual([events[0]!.at, events[0]!.at, undefined]); // told on the tablet while somebody is there
  const order = await withTenant(alder.company, (tx) => readOrderLines(tx, alder.workOrderId));
  expect(order?.lines).toMatchObject([{ kind: "labour", what: name, quantity: "0.00", detail: "time on site" }]);
  expect(await withTenant(birch.company, (tx) => readOrderLines(tx, alder.workOrderId))).toBeNull();
});
