import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readDayProblem } from "@/lib/db/dispatch/day-problem";
import { addPersonTime, setFieldProfile, setWeek, withdrawPersonTime } from "@/lib/db/dispatch/field-people";
import { setPlanningRules } from "@/lib/db/dispatch/planning-rules";
import { withTenant } from "@/lib/db/tenant";
import { planVisit } from "@/lib/db/visits";
import { planDay } from "@/lib/dispatch";
import { parseProblem } from "@/lib/dispatch/schema";
import { inNames } from "@/lib/work/day/day-problem";
import { defaultPlanningRules } from "@/lib/work/day/planning-rules";
import { instantAt } from "@/lib/work/site-time";
import { checkPlan } from "../dispatch/plan-checker";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

const DAY = "2026-11-25"; // a Wednesday
const ZONE = "America/Denver";
const at = (clock: string, day = DAY) => instantAt(`${day}T${clock}`, ZONE)!;

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

const asked = (planted: Planted) => ({ companyId: planted.company, timeZone: ZONE, ruleSet: "us" as const });
const workWeek = (beginsMinute: number, endsMinute: number) =>
  [1, 2, 3, 4, 5, 6, 7].map((weekday) =>
    weekday < 6 ? { weekday, beginsMinute, endsMinute } : { weekday, beginsMinute: null, endsMinute: null },
  );
const base = {
  baseName: "Yard",
  latitude: 39.7,
  longitude: -104.9,
  endsAtBase: true,
  isApprentice: false,
  ridesWith: null,
  maxVisits: 6,
};
const planned = { window: null, plannedMinutes: 90 };

test("a day's problem is made of the company's rows, and a plan of it keeps every rule of the format", async () => {
  const { alder } = database;
  const { personId } = alder.technician;
  const visitId = await withTenant(alder.company, async (tx) => {
    await setWeek(tx, personId, workWeek(7 * 60, 15 * 60 + 30));
    await setFieldProfile(tx, personId, base);
    await tx.site.updateMany({ where: { id: alder.siteId }, data: { latitude: 39.8, longitude: -105 } });
    await tx.certificate.create({ data: { id: uuidv7(), personId, kind: "us-type-2" } });
    await tx.tool.create({
      data: { id: uuidv7(), kind: "recovery-machine", name: "RM", heldBy: personId, ratedFor: ["A1"] },
    });
    await tx.vanStock.create({ data: { personId, part: "filter drier", quantity: 3 } });
    const visit = await planVisit(tx, alder.workOrderId, {
      ...planned,
      window: { from: at("08:00"), to: at("10:00") },
      plannedStart: at("08:30"),
      people: [personId],
    });
    if (!visit.ok) throw new Error(visit.error.code);
    await tx.visitPart.create({ data: { visitId: visit.value, part: "filter drier", quantity: 1 } });
    return visit.value;
  });
  const day = await readDayProblem(asked(alder), DAY);
  expect(day.problem.technicians).toMatchObject([
    {
      id: personId,
      skills: ["Type II or Universal", "a recovery machine"],
      shift: [7 * 3600, 15.5 * 3600],
      lunch: { window: [11.5 * 3600, 13.5 * 3600], duration: 1800 },
      stock: { "filter drier": 3 },
      maxJobs: 6,
    },
  ]);
  expect(day.problem.jobs).toMatchObject([
    {
      id: visitId,
      duration: 5400,
      windows: [[8 * 3600, 10 * 3600]],
      skills: ["Type II or Universal", "a recovery machine"],
      parts: { "filter drier": 1 },
      promised: { technician: personId, start: 8.5 * 3600, tolerance: 900 },
    },
  ]);
  expect(day.problem.travelSeconds[0]?.[1]).toBeGreaterThan(900);
  expect(parseProblem({ format: "dispatch-problem/1", ...day.problem }).ok).toBe(true);
  let looks = 0;
  const plan = planDay(day.problem, { clock: () => looks++, untilMs: 40 });
  expect(checkPlan(day.problem, plan).broken).toEqual([]);
  expect(plan.unassigned).toEqual([]);
});

test("a certificate struck off, and nobody may be sent any more, in words with the company's names", async () => {
  const { alder } = database;
  await withTenant(alder.company, (tx) => tx.certificate.deleteMany());
  const day = await readDayProblem(asked(alder), DAY);
  let looks = 0;
  const plan = planDay(day.problem, { clock: () => looks++, untilMs: 40 });
  expect(plan.unassigned.map(({ reason }) => inNames(reason, day.names))).toEqual([
    "nobody with Type II or Universal and a recovery machine is at work",
  ]);
});

test("an absence takes a person out of the day until it is withdrawn", async () => {
  const { alder } = database;
  const { personId } = alder.technician;
  const away = { kind: "away" as const, fromAt: at("00:00"), toAt: at("00:00", "2026-11-27"), note: "" };
  const id = await withTenant(alder.company, (tx) => addPersonTime(tx, personId, away));
  expect((await readDayProblem(asked(alder), DAY)).leftOut).toEqual([{ personId, reason: "away" }]);
  expect(await withTenant(alder.company, (tx) => withdrawPersonTime(tx, personId, id!, at("00:00")))).toBe(true);
  expect((await readDayProblem(asked(alder), DAY)).leftOut).toEqual([]);
});

test("yesterday's late work counts for rest, this week's for the hours of the week", async () => {
  const { alder } = database;
  const { personId } = alder.technician;
  await withTenant(alder.company, async (tx) => {
    const late = { ...planned, plannedMinutes: 600, plannedStart: at("12:00", "2026-11-24"), people: [personId] };
    await planVisit(tx, alder.workOrderId, late);
    const rules = { ...defaultPlanningRules("us"), minRestMinutes: 660, maxWeekMinutes: 15 * 60 };
    await setPlanningRules(tx, rules);
    await setPlanningRules(tx, rules); // the second time there is a row to change
  });
  const day = await readDayProblem(asked(alder), DAY);
  expect(day.problem.technicians[0]?.shift).toEqual([9 * 3600, 14 * 3600]);
});

test("another company's day holds nothing of this one", async () => {
  const { alder, birch } = database;
  const day = await readDayProblem(asked(birch), DAY);
  expect(day.problem.jobs).toEqual([]);
  expect(day.leftOut).toEqual([{ personId: birch.technician.personId, reason: "no-week-on-record" }]);
  await withTenant(birch.company, async (tx) => {
    expect(await setWeek(tx, alder.technician.personId, workWeek(480, 1020))).toBe(false);
    expect(await setFieldProfile(tx, alder.technician.personId, base)).toMatchObject({ error: { code: "not-found" } });
    const withForeign = { ...base, ridesWith: alder.technician.personId };
    expect(await setFieldProfile(tx, birch.technician.personId, withForeign)).toMatchObject({
      error: { code: "no-such-companion" },
    });
  });
});

test("what a road service answered is kept, and not asked for again", async () => {
  const { alder } = database;
  let questions = 0;
  const server = createServer((_request, response) => {
    questions++;
    response.end('{"code":"Ok","durations":[[0,600],[900,0]]}');
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/table/v1/driving`;
  const roadService = { url, timeoutMs: 5_000 };
  const first = await readDayProblem(asked(alder), DAY, { roadService });
  server.close();
  expect(first.problem.travelSeconds).toEqual([
    [0, 780],
    [1080, 0],
  ]);
  expect(first.notes.join()).not.toContain("road service");
  const again = await readDayProblem(asked(alder), DAY, { roadService });
  expect(again.problem.travelSeconds).toEqual(first.problem.travelSeconds);
  expect(questions).toBe(1);
});
