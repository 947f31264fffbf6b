import { describe, expect, test } from "vitest";
import { andOnCall, type DispatchProblem, formCrews, type Person, planDay, planReturnVisit } from "@/lib/dispatch";

const hour = 3_600;
const person = (id: string, more: Partial<Person> = {}): Person => ({
  id,
  skills: ["Type II"],
  start: 0,
  end: 0,
  shift: [8 * hour, 17 * hour],
  ...more,
});
const problem = (technicians: DispatchProblem["technicians"], jobs: DispatchProblem["jobs"]): DispatchProblem => ({
  name: "a day",
  travelSeconds: [[0]],
  technicians,
  jobs,
  objective: { unassigned: 50_000 },
});
const plan = (day: DispatchProblem) => {
  let now = 0;
  return planDay(day, { clock: () => now++, untilMs: 40 });
};
const job = (id: string, skills: readonly string[] = []) => ({ id, location: 0, duration: hour, skills, priority: 2 });

describe("crews", () => {
  test("a visit for two people goes to the pair and to nobody alone", () => {
    const { technicians } = formCrews([person("Ada"), person("Ben"), person("Cy")], [{ lead: "Ada", second: "Ben" }]);
    const { routes } = plan(problem(technicians, [job("J", ["two people"])]));
    expect(routes.map(({ technician }) => technician)).toEqual(["Ada"]);
    expect(plan(problem([person("Ada"), person("Ben")], [job("J", ["two people"])])).unassigned).toHaveLength(1);
  });
  test("an apprentice goes along, never alone, and brings no certificate", () => {
    const apprentice = person("Kid", { isApprentice: true, skills: ["A2L"] });
    const beside = formCrews([person("Ada"), apprentice], [{ lead: "Ada", second: "Kid" }]);
    expect(beside.technicians.map(({ id, skills }) => [id, skills])).toEqual([["Ada", ["Type II", "two people"]]]);
    const alone = formCrews([person("Ada"), apprentice], []);
    expect(alone.technicians.map(({ id }) => id)).toEqual(["Ada"]);
    expect(alone.left).toEqual([{ person: "Kid", reason: "apprentice-without-company" }]);
    const leading = formCrews(
      [person("Ada"), apprentice, person("Mo", { isApprentice: true })],
      [{ lead: "Kid", second: "Mo" }],
    );
    expect(leading.technicians.map(({ id }) => id)).toEqual(["Ada"]);
    expect(leading.left.map(({ person: id }) => id).sort()).toEqual(["Kid", "Mo"]);
  });
  test("a pair works the hours that both are there", () => {
    const late = person("Ben", { shift: [10 * hour, 15 * hour], maxOvertime: hour });
    const { technicians } = formCrews([person("Ada", { maxOvertime: 0 }), late], [{ lead: "Ada", second: "Ben" }]);
    expect(technicians[0]).toMatchObject({ shift: [10 * hour, 15 * hour], maxOvertime: hour });
  });
});

test("a call in the evening goes to whoever is on call", () => {
  const evening = { ...job("E", ["on call"]), windows: [[20 * hour, 21 * hour]] as const };
  const day = problem(andOnCall([person("Ada"), person("Ben")], "Ben", 22 * hour), [evening]);
  expect(plan(day).routes.map(({ technician }) => technician)).toEqual(["Ben"]);
  expect(plan(problem([person("Ada"), person("Ben")], [evening])).unassigned).toHaveLength(1);
});

test("a return visit waits for its parts and prefers whoever was there before", () => {
  const first = { ...job("J"), parts: { compressor: 1 }, lockedTo: "Ada" };
  const came = plan(problem([person("Ada", { stock: { compressor: 1 } })], [first]));
  const back = planReturnVisit(job("J"), came, {
    id: "J again",
    arriveAtS: 13 * hour,
    durationS: 2 * hour,
    closesAtS: 16 * hour,
  });
  expect(back).toMatchObject({ windows: [[13 * hour, 16 * hour]], preferredTechnicians: ["Ada"], duration: 2 * hour });
  expect("parts" in back).toBe(false);
});
