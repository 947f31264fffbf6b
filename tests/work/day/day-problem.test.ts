import { describe, expect, test } from "vitest";
import { type DispatchPlan, planDay } from "@/lib/dispatch";
import { parseProblem } from "@/lib/dispatch/schema";
import { listPlaces } from "@/lib/work/day/day-places";
import { type DayProblem, inNames, listPlannedVisits, makeDayProblem } from "@/lib/work/day/day-problem";
import type { DayRecords } from "@/lib/work/day/day-records";
import { checkPlan } from "../../dispatch/plan-checker";
import { ANA, at, BEN, circuit, dayOf, id, mild, person, tool, visit } from "./day-maker";

const WAY_S = 1200;

function made(given: Partial<DayRecords>, now: Date | null = null): DayProblem {
  const records = dayOf(given);
  const places = listPlaces(records);
  const travel = places.at.map((_, a) => places.at.map((_, b) => (a === b ? 0 : WAY_S)));
  return makeDayProblem(records, places, travel, now);
}

/** A plan of the day after a short search, held to the independent checker and to the format. */
function planned(day: DayProblem): DispatchPlan {
  let steps = 0;
  const plan = planDay(day.problem, { clock: () => steps++, untilMs: 60 });
  expect(parseProblem({ format: "dispatch-problem/1", ...day.problem }).ok).toBe(true);
  expect(checkPlan(day.problem, plan).broken).toEqual([]);
  return plan;
}

const reasons = (day: DayProblem) => planned(day).unassigned.map(({ reason }) => inNames(reason, day.names));

describe("who can be sent to a circuit", () => {
  test("only somebody with the certificate the circuit asks for", () => {
    const people = [person(ANA, { certificates: [{ kind: "us-type-1", expiresOn: null }] }), person(BEN)];
    const work = visit({ circuits: [circuit()] });
    const day = made({ people, visits: [work] });
    expect(planned(day).routes.map(({ technician }) => technician)).toEqual([BEN]);
    expect(reasons(made({ people: [people[0]!], visits: [work] }))).toEqual([
      "nobody with Type II or Universal is at work",
    ]);
  });

  test("a certificate that has run out by that day does not count", () => {
    const certificates = [{ kind: "eu-a1", expiresOn: new Date("2026-11-24T00:00:00Z") }];
    const day = made({
      ruleSet: "eu",
      people: [person(ANA, { certificates })],
      visits: [visit({ circuits: [circuit()] })],
    });
    expect(reasons(day)).toEqual(["nobody with EU category A1 is at work"]);
  });

  test("a flammable refrigerant asks for its competence and for machines rated for its class", () => {
    const flammables = [...person(ANA).certificates, { kind: "flammables", expiresOn: null }];
    const tools = [tool(ANA, "recovery-machine"), tool(BEN, "recovery-machine", { ratedFor: ["A1", "A2L"] })];
    const visits = [visit({ circuits: [mild] })];
    const only = (people: DayRecords["people"]) => made({ people, tools, visits });
    expect(reasons(only([person(ANA, { certificates: flammables })]))).toEqual([
      "nobody with Type II or Universal, competence for flammable refrigerants and an A2L recovery machine is at work",
    ]);
    expect(planned(only([person(BEN, { certificates: flammables })])).unassigned).toEqual([]);
    expect(planned(only([person(BEN)])).unassigned).toHaveLength(1);
  });

  test("a gauge out of calibration does not count, one whose date is that day does", () => {
    const visits = [visit({ circuits: [circuit()] })];
    const dated = (date: string) => [tool(ANA, "vacuum-gauge", { calibrationDueOn: new Date(`${date}T00:00:00Z`) })];
    expect(reasons(made({ visits, tools: dated("2026-11-24") }))).toEqual([
      "nobody with Type II or Universal and a vacuum gauge in calibration is at work",
    ]);
    expect(planned(made({ visits, tools: dated("2026-11-25") })).unassigned).toEqual([]);
  });

  test("tools nobody is on record to hold are not asked for, and a note says so", () => {
    const day = made({ visits: [visit({ circuits: [circuit()] })] });
    expect(planned(day).unassigned).toEqual([]);
    expect(day.notes.join(" ")).toContain("recovery machine, pump, vacuum gauge");
  });

  test("a swap that opens nothing asks for nothing", () => {
    const day = made({
      people: [person(ANA, { certificates: [] })],
      visits: [visit({ circuits: [circuit({ kind: "component_swap_not_opened" })] })],
    });
    expect(planned(day).unassigned).toEqual([]);
  });
});

describe("when people are at work", () => {
  const technicianOf = (given: Partial<DayRecords>) => made(given).problem.technicians[0];

  test("the shift of that weekday, in the office's clock", () => {
    expect(technicianOf({})).toMatchObject({ shift: [8 * 3600, 17 * 3600], maxOvertime: 0 });
  });

  test("away for part of the day leaves the longer part, and says so when the shift is cut in two", () => {
    const away = (from: string, to: string) => [
      person(ANA, { times: [{ kind: "away", fromAt: at(from), toAt: at(to) }] }),
    ];
    expect(technicianOf({ people: away("00:00", "10:00") })?.shift).toEqual([10 * 3600, 17 * 3600]);
    const day = made({ people: away("10:00", "11:00") });
    expect(day.problem.technicians[0]?.shift).toEqual([11 * 3600, 17 * 3600]);
    expect(day.notes).toContain("Ana is away in mid-shift; only the longer part is planned.");
  });

  test("who cannot be sent is named with the reason", () => {
    const people = [
      person(ANA, { times: [{ kind: "away", fromAt: at("00:00"), toAt: at("23:59") }] }),
      person(BEN, { shift: null }),
      person(id(3), { shift: null, hasWeek: false }),
      person(id(4), { isApprentice: true }),
    ];
    const { problem, leftOut } = made({ people });
    expect(problem.technicians).toEqual([]);
    expect(leftOut).toEqual([
      { personId: ANA, reason: "away" },
      { personId: BEN, reason: "not-at-work" },
      { personId: id(3), reason: "no-week-on-record" },
      { personId: id(4), reason: "apprentice-without-company" },
    ]);
  });

  test("an apprentice rides with the qualified person, and the crew can do what takes two", () => {
    const people = [person(ANA), person(BEN, { isApprentice: true, certificates: [], ridesWith: ANA })];
    const day = made({ people, visits: [visit({ peopleNeeded: 2 })] });
    const [stop] = listPlannedVisits(day, planned(day));
    expect(stop?.people).toEqual([ANA, BEN]);
    expect(planned(made({ people: [person(ANA)], visits: [visit({ peopleNeeded: 2 })] })).unassigned).toHaveLength(1);
  });

  test("on call runs past the shift, and a call for the evening goes to nobody else", () => {
    const onCall = person(BEN, { times: [{ kind: "on-call", fromAt: at("17:00"), toAt: at("22:00") }] });
    const window = { from: at("19:00"), to: at("20:00") };
    const day = made({ people: [person(ANA), onCall], visits: [visit({ window, urgency: "today" })] });
    expect(planned(day).routes.map(({ technician }) => technician)).toEqual([BEN]);
  });

  // source: Directive 2003/88/EC articles 3 (11 hours' rest) and 6 (48 hours a week), from memory
  test("rest since yesterday, the week's hours and the day's length hold", () => {
    const limits = { ...dayOf({}).limits, minRestMinutes: 660, maxWeekMinutes: 2880, maxDayMinutes: 480 };
    const late = [{ personId: ANA, fromAt: at("12:00", "2026-11-24"), toAt: at("22:00", "2026-11-24") }];
    expect(technicianOf({ limits, otherDays: late })).toMatchObject({ shift: [9 * 3600, 17 * 3600] });
    const days = ["2026-11-23", "2026-11-24", "2026-11-27", "2026-11-28"];
    const full = days.map((day) => ({ personId: ANA, fromAt: at("06:00", day), toAt: at("17:00", day) }));
    expect(technicianOf({ limits, otherDays: full })?.shift).toEqual([8 * 3600, 12 * 3600]);
    const over = full.map((each) => ({ ...each, fromAt: new Date(each.fromAt.getTime() - 2 * 3_600_000) }));
    expect(made({ limits, otherDays: over }).leftOut).toEqual([{ personId: ANA, reason: "no-hours-left-this-week" }]);
  });

  test("a day of at most six hours has no lunch", () => {
    const short = [person(ANA, { shift: { beginsMinute: 480, endsMinute: 840 } })];
    expect(technicianOf({ people: short })?.lunch).toBeNull();
    expect(technicianOf({})?.lunch).toEqual({ window: [41_400, 48_600], duration: 1800 });
  });
});

describe("what is asked of the plan", () => {
  test("promised windows hold, starts and people already planned are kept, an emergency goes before", () => {
    const window = { from: at("08:00"), to: at("12:00") };
    const kept = visit({ window, plannedStart: at("09:00"), people: [ANA] });
    const danger = visit({ urgency: "danger" });
    const { problem } = made({ people: [person(ANA), person(BEN)], visits: [kept, danger] });
    expect(problem.jobs[0]).toMatchObject({
      windows: [[8 * 3600, 12 * 3600]],
      promised: { technician: ANA, start: 9 * 3600, tolerance: 900 },
      priority: 2,
    });
    expect(problem.jobs[1]).toMatchObject({ priority: 4, releasedAt: 7 * 3600 });
  });

  test("people of two vans meet at the time that was set", () => {
    const work = visit({ plannedStart: at("10:00"), people: [ANA, BEN], circuits: [circuit()] });
    const day = made({ people: [person(ANA, { certificates: [] }), person(BEN)], visits: [work] });
    const plan = planned(day);
    expect(plan.unassigned).toEqual([]);
    const [visited] = listPlannedVisits(day, plan);
    expect(visited).toMatchObject({ visitId: work.id, start: at("10:00") });
    expect([...visited!.people].sort()).toEqual([ANA, BEN]);
  });

  test("a pinned visit stays with its person, a return visit is liked with whoever came first", () => {
    const visits = [visit({ pinnedTo: BEN }), visit({ earlierPeople: [ANA] })];
    const { problem } = made({ people: [person(ANA), person(BEN)], visits });
    expect(problem.jobs[0]).toMatchObject({ lockedTo: BEN });
    expect(problem.jobs[1]).toMatchObject({ preferredTechnicians: [ANA] });
  });

  test("parts come out of the van's stock; a van without one on record is named", () => {
    const visits = [visit({ parts: { "filter drier": 2 } })];
    const day = made({ people: [person(ANA, { stock: { "filter drier": 1 } })], visits });
    expect(reasons(day)).toEqual(["nobody has enough filter drier left on the van"]);
    expect(made({ visits }).notes).toContain("No van stock on record, taken to carry every part: Ana.");
  });

  test("what has begun stays: its people are free there when it ends, and it is not planned again", () => {
    const onSite = visit({ state: "on-site", plannedStart: at("08:30"), plannedMinutes: 90, people: [ANA] });
    const done = visit({ state: "done", plannedStart: at("08:00"), people: [BEN] });
    const day = made({ people: [person(ANA), person(BEN)], visits: [onSite, done, visit()] }, at("09:15"));
    const [ana, ben] = day.problem.technicians;
    expect(ana?.from).toEqual({ location: 2, time: 10 * 3600 });
    expect(ben?.from).toEqual({ location: 3, time: 9.25 * 3600 });
    expect(day.problem).toMatchObject({ now: 9.25 * 3600, timeLimitMs: 800 });
    expect(day.problem.jobs).toHaveLength(1);
    planned(day);
  });

  test("on a day on which the clocks change, times read as people read them", () => {
    const day = "2026-11-01"; // the clocks go back in the United States on the first Sunday of November, 15 USC 260a
    const work = visit({ plannedStart: at("13:00", day), people: [ANA] });
    const { problem, clock } = made({ day, visits: [work] });
    expect(problem.jobs[0]?.promised?.start).toBe(13 * 3600);
    expect(clock.instantOf(13 * 3600)).toEqual(at("13:00", day));
  });
});
