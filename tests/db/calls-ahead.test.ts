import { afterAll, beforeAll, expect, test } from "vitest";
import { listCallsToPlace, readBoard } from "@/lib/db/board/read-board";
import { callForPart, cancelCall, noteArrivedPart } from "@/lib/db/calls";
import {
  addMaintenancePlan,
  endMaintenancePlan,
  listMaintenancePlans,
  makeMaintenanceCalls,
} from "@/lib/db/maintenance";
import { withTenant } from "@/lib/db/tenant";
import { makeCallsAhead } from "@/lib/jobs/calls-ahead";
import { remindOfDuties } from "@/lib/jobs/remind-duties";
import type { Mail } from "@/lib/messages/mail";
import { withConnection } from "./fresh-database";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

const NOON = new Date("2026-12-01T19:00:00Z");
const plan = ({ equipmentId, circuitId }: Planted) => ({
  equipmentId,
  circuitId,
  what: "Check for leaks",
  everyMonths: 6,
  firstDue: "2026-12-20",
  windowWeeks: 2,
});
const calls = (at: Planted) =>
  withTenant(at.company, (tx) =>
    tx.serviceCall.findMany({ where: { origin: { not: "call" } }, orderBy: { number: "asc" } }),
  );
const make = (at: Planted, now: Date) => withTenant(at.company, (tx) => makeMaintenanceCalls(tx, now));

test("a plan makes its call ahead, once also when two processes do it at the same time, and the next when that has ended", async () => {
  const { alder, birch } = database;
  const id = await withTenant(alder.company, (tx) => addMaintenancePlan(tx, plan(alder), alder.dispatcher.personId));
  expect((await Promise.all([make(alder, NOON), make(alder, NOON)])).sort()).toEqual([0, 1]);
  expect(await make(birch, NOON)).toBe(0);
  const [call, ...more] = await calls(alder);
  expect(more).toEqual([]);
  expect(call).toMatchObject({
    state: "new",
    origin: "maintenance",
    urgency: "planned",
    dueFrom: new Date("2026-12-20"),
    dueBy: new Date("2027-01-03"),
  });
  const summer = new Date("2027-06-10T19:00:00Z");
  expect(await make(alder, summer)).toBe(0);
  await withTenant(alder.company, (tx) => cancelCall(tx, call!.id));
  expect(await make(alder, summer)).toBe(1);
  expect((await calls(alder)).map(({ dueFrom }) => dueFrom)).toEqual([new Date("2026-12-20"), new Date("2027-06-20")]);
  await withTenant(alder.company, (tx) => endMaintenancePlan(tx, id!, alder.dispatcher.personId));
  expect(await withTenant(alder.company, (tx) => listMaintenancePlans(tx, alder.equipmentId))).toEqual([]);
  await withTenant(alder.company, (tx) => tx.serviceCall.updateMany({ data: { state: "done" } }));
  expect(await make(alder, new Date("2028-06-10T19:00:00Z"))).toBe(0);
});

test("another company's unit is no unit, and another unit's circuit is not on this one", async () => {
  const { alder, birch } = database;
  await withTenant(birch.company, async (tx) => {
    expect(await addMaintenancePlan(tx, plan(alder), birch.dispatcher.personId)).toBeNull();
    const mixed = { ...plan(birch), circuitId: alder.circuitId };
    expect(await addMaintenancePlan(tx, mixed, birch.dispatcher.personId)).toBeNull();
  });
});

test("a return visit waits for its part: on the board with what it waits for, not in a plan until the part has come", async () => {
  const { alder, birch } = database;
  const asked = { day: "2026-12-01" };
  const toPlace = async () => {
    const found = await withTenant(alder.company, (tx) => listCallsToPlace(tx, asked));
    return found.map(({ id }) => id);
  };
  const id = (await withTenant(alder.company, (tx) =>
    callForPart(tx, alder.workOrderId, "compressor", alder.dispatcher.personId),
  ))!;
  expect(await toPlace()).not.toContain(id);
  const board = () =>
    withTenant(alder.company, (tx) => readBoard(tx, [asked.day], { timeZone: "America/Denver", ruleSet: "us" }, NOON));
  const notes = async () => (await board()).visits.find((visit) => visit.id === id)?.notes;
  expect(await notes()).toEqual(["waits for compressor"]);
  expect(await withTenant(birch.company, (tx) => noteArrivedPart(tx, id))).toBe(false);
  expect(await withTenant(alder.company, (tx) => noteArrivedPart(tx, id))).toBe(true);
  expect(await withTenant(alder.company, (tx) => noteArrivedPart(tx, id))).toBe(false);
  expect(await notes()).toEqual(["compressor has come"]);
  expect(await toPlace()).toContain(id);
});

test("a legal duty whose last day is near becomes a call with that day, once; one that is far or done does not", async () => {
  const { alder } = database;
  const days = (n: number) => new Date(Date.now() + n * 86_400_000).toISOString().slice(0, 10);
  const duty = (code: string, dueBy: string, doneOn: string | null) =>
    withConnection(database.adminUrl, (client) =>
      client.query(
        `insert into duty (tenant_id, circuit_id, code, since, words, due_by, done_on, whose, source, mark)
         values ($1, $2, $3, current_date, 'To be done.', $4, $5, $6, $7, $8)`,
        [alder.company, alder.circuitId, code, dueBy, doneOn, "owner", "a source", "law"],
      ),
    );
  await withTenant(alder.company, (tx) => tx.dutyStale.deleteMany());
  await duty("repair", days(10), null);
  await duty("leak-check", days(90), null);
  await duty("recheck", days(5), days(-1));
  const before = (await calls(alder)).length;
  await makeCallsAhead({ company: alder.company, key: "daily", attempts: 1 });
  await makeCallsAhead({ company: alder.company, key: "daily", attempts: 1 });
  const made = (await calls(alder)).slice(before);
  expect(made).toHaveLength(1);
  expect(made[0]).toMatchObject({ origin: "duty", dueBy: new Date(days(10)), takenBy: alder.supervisor.personId });
  expect(made[0]!.symptom).toContain("Repair, by");
});

test("supervisors and owners are reminded by mail of what is near or just late, and of nothing on other days", async () => {
  const { birch } = database;
  const today = new Intl.DateTimeFormat("en-CA", { timeZone: "America/Denver" }).format(new Date());
  const inDays = (n: number) => new Date(Date.parse(today) + n * 86_400_000).toISOString().slice(0, 10);
  const sent: Mail[] = [];
  const remind = async (became: "sent" | "put-off" = "sent") => {
    sent.length = 0;
    const deliver = async (mail: Mail) => {
      sent.push(mail);
      return became === "sent" ? ({ became } as const) : ({ became, why: "no-connection" } as const);
    };
    return remindOfDuties(() => deliver)({ company: birch.company, key: "daily", attempts: 1 });
  };
  await withTenant(birch.company, (tx) => tx.duty.deleteMany());
  await remind();
  expect(sent).toEqual([]);
  for (const [code, days] of Object.entries({ repair: 7, "leak-check": 8, recheck: -1, "verify-initial": -2 }))
    await withConnection(database.adminUrl, (client) =>
      client.query(
        `insert into duty (tenant_id, circuit_id, code, since, words, due_by, whose, source, mark)
         values ($1, $2, $3, current_date, 'To be done.', $4, 'owner', 'a source', 'law')`,
        [birch.company, birch.circuitId, code, inDays(days)],
      ),
    );
  await remind();
  const people = await withTenant(birch.company, (tx) =>
    tx.member.count({ where: { active: true, roles: { hasSome: ["supervisor", "owner"] } } }),
  );
  expect(people).toBeGreaterThan(0);
  expect(new Set(sent.map(({ to }) => to)).size).toBe(people);
  expect(sent[0]).toMatchObject({ subject: "2 legal duties are due" });
  expect(sent[0]!.body.split("\n").slice(0, 3)).toEqual([
    expect.stringMatching(/^Late since yesterday, /),
    expect.stringMatching(/^In 7 days, /),
    "",
  ]);
  const before = sent.map(({ id }) => id);
  expect(await remind("put-off")).toBe("put-off");
  expect(before).toContain(sent[0]!.id); // sent again it is the same mail
});
