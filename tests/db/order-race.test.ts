import { setTimeout as delay } from "node:timers/promises";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openJob } from "@/lib/db/jobs";
import { withTenant } from "@/lib/db/tenant";
import { planVisit } from "@/lib/db/visits";
import { cancelWorkOrder } from "@/lib/db/work-orders";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

const plan = { window: null, plannedStart: null, plannedMinutes: 60, people: [] };

test("a circuit gets one job to an order, however many ask at once", async () => {
  const { company, dispatcher, workOrderId: known, circuitId } = database.birch;
  const workOrderId = uuidv7();
  await withTenant(company, async (tx) => {
    const { serviceCallId } = (await tx.workOrder.findFirst({ where: { id: known } }))!;
    await tx.workOrder.create({ data: { id: workOrderId, number: 500, serviceCallId } });
  });
  const ask = () =>
    withTenant(company, (tx) => openJob(tx, { workOrderId, circuitId, kind: "leak_repair" }, dispatcher));
  const asked = await Promise.all([ask(), ask(), ask()]);
  expect(asked.filter(({ ok }) => ok)).toHaveLength(1);
  expect(await withTenant(company, (tx) => tx.circuitJob.count({ where: { workOrderId } }))).toBe(1);
});

test("no visit is put on an order that is being cancelled", async () => {
  const { company, workOrderId } = database.alder;
  let planned: ReturnType<typeof planVisit> | undefined;
  await withTenant(company, async (tx) => {
    expect(await cancelWorkOrder(tx, workOrderId)).toEqual({ ok: true, value: null });
    planned = withTenant(company, (other) => planVisit(other, workOrderId, plan));
    await delay(150); // long enough to read the order before it is cancelled, were it not held
  });
  expect(await planned).toEqual({ ok: false, error: { code: "order-not-open" } });
  expect(await withTenant(company, (tx) => tx.visit.count({ where: { workOrderId, state: "planned" } }))).toBe(0);
});
