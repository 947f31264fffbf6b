import { describe, expect, test } from "vitest";
import {
  type Addition,
  type CircuitUnderLaw,
  type DutyCode,
  type LawEvent,
  type LeakRateMethod,
  standingUnderEu,
  standingUnderUs,
  withoutSeasonalReturns,
} from "@/lib/duties";
import { toKg } from "@/lib/hvac/units";

/*
 * What the rules ask of a circuit over its life, row by row. Sources stand beside each; "memory" and "secondary" as in lib/hvac/rules.
 */

const rack: CircuitUnderLaw = {
  refrigerant: "R-404A",
  fullChargeKg: toKg(100, "lb"),
  use: "commercial-refrigeration",
  residentialOrLightCommercial: false,
  processShutdownNeeded: false,
  detectionSystem: false,
  hermeticLabelled: false,
  installedOn: "2020-05-01",
};
const lb = (on: string, pounds: number): Addition => ({ on, grams: Math.round(toKg(pounds, "lb") * 1000) });
const event = (kind: LawEvent["kind"], on: string, passed: boolean | null = null): LawEvent => ({ kind, on, passed });

function us(
  additions: readonly Addition[],
  events: readonly LawEvent[] = [],
  over: Partial<CircuitUnderLaw> = {},
  method: LeakRateMethod = "annualizing",
) {
  const standing = standingUnderUs({ ...rack, ...over }, additions, events, method, "2026-11-25");
  const of = (code: DutyCode) => standing.duties.findLast((duty) => duty.code === code);
  return { ...standing, of };
}

describe("US leak rate at each addition, 40 CFR 82.152", () => {
  /** 20.2778 %: a worked example page prints 20.27 [read, secondary]; 45.625 and 15 % computed from the formula. */
  test.each([
    {
      full: 100,
      added: 10,
      days: 180,
      method: "annualizing",
      percent: 20.2778,
      use: "commercial-refrigeration",
      above: true,
    },
    {
      full: 200,
      added: 30,
      days: 120,
      method: "annualizing",
      percent: 45.625,
      use: "commercial-refrigeration",
      above: true,
    },
    {
      full: 200,
      added: 30,
      days: 500,
      method: "annualizing",
      percent: 15,
      use: "commercial-refrigeration",
      above: false,
    },
    { full: 200, added: 30, days: 120, method: "rolling", percent: 15, use: "commercial-refrigeration", above: false },
    { full: 200, added: 30, days: 120, method: "rolling", percent: 15, use: "comfort-cooling", above: true },
  ] as const)("$added of $full lb after $days days, $method: $percent %, above the trigger of $use: $above", (row) => {
    const { full, added, days, method, percent, use, above } = row;
    const before = new Date(Date.UTC(2026, 9, 1) - days * 86_400_000).toISOString().slice(0, 10);
    const small = lb(before, 0.003); // the addition the interval is counted from
    const { rates } = us([small, lb("2026-10-01", added)], [], { fullChargeKg: toKg(full, "lb"), use }, method);
    expect(rates.at(-1)!.fraction * 100).toBeCloseTo(percent, 2);
    expect(rates.at(-1)!.above).toBe(above);
  });

  test("several additions of one day count as one service event [secondary]", () => {
    const apart = us([lb("2026-10-01", 10), lb("2026-10-01", 20)], [], { fullChargeKg: toKg(200, "lb") });
    expect(apart.rates.map(({ fraction }) => Number(fraction.toFixed(4)))).toEqual([0.15]);
  });
});

describe("US duties after the trigger, 40 CFR 82.157, 84.106", () => {
  const leak = [lb("2026-10-01", 30)];

  test("30 days to repair and to the initial test [secondary]; the follow-up waits for it", () => {
    const { of } = us(leak);
    expect(of("repair")).toMatchObject({ dueBy: "2026-10-31", doneOn: null, whose: "owner-or-operator" });
    expect(of("initial-verification")).toMatchObject({ dueBy: "2026-10-31", doneOn: null });
    expect(of("follow-up-verification")).toMatchObject({ dueBy: null, doneOn: null });
    expect(of("retrofit-plan")).toMatchObject({ dueBy: "2026-11-30" });
  });

  test("120 days where an industrial process has to be shut down [secondary]", () => {
    const ipr = { use: "industrial-process-refrigeration", processShutdownNeeded: true } as const;
    expect(us([lb("2026-10-01", 40)], [], ipr).of("repair")!.dueBy).toBe("2027-01-29");
  });

  test("below the trigger nothing is asked", () => {
    expect(us([lb("2026-10-01", 19)]).duties).toEqual([]);
  });

  test("the follow-up within 10 days of the initial test, or of normal operating conditions [secondary]", () => {
    const initial = [event("repair", "2026-10-02"), event("initial-verification", "2026-10-03", true)];
    expect(us(leak, initial).of("follow-up-verification")!.dueBy).toBe("2026-10-13");
    const normal = [...initial, event("normal-operation", "2026-10-09")];
    expect(us(leak, normal).of("follow-up-verification")!.dueBy).toBe("2026-10-19");
  });

  test("both tests passed end the case; one alone does not", () => {
    const initial = [event("repair", "2026-10-02"), event("initial-verification", "2026-10-03", true)];
    const done = us(leak, [...initial, event("follow-up-verification", "2026-10-12", true)]);
    for (const code of ["repair", "initial-verification", "follow-up-verification"] as const)
      expect(done.of(code)!.doneOn).not.toBeNull();
    expect(done.of("retrofit-plan")).toBeUndefined();
    const alone = us(leak, [event("follow-up-verification", "2026-10-12", true)]);
    expect(alone.of("follow-up-verification")!.doneOn).toBeNull();
  });

  test("a failed follow-up asks for the repair and both tests again, and a plan within 30 days [secondary]", () => {
    const failed = us(leak, [
      event("repair", "2026-10-02"),
      event("initial-verification", "2026-10-03", true),
      event("follow-up-verification", "2026-10-12", false),
    ]);
    expect(failed.of("repair")!.doneOn).toBeNull();
    expect(failed.of("initial-verification")!.doneOn).toBeNull();
    expect(failed.of("retrofit-plan")!.dueBy).toBe("2026-11-11");
    const planned = us(leak, [
      event("follow-up-verification", "2026-10-12", false),
      event("retrofit-plan", "2026-11-01"),
    ]);
    expect(planned.of("retrofit-done")!.dueBy).toBe("2027-11-01");
  });

  test("a second leak after a verified repair is a case of its own; an open one is not opened twice", () => {
    const verified = [
      event("repair", "2026-10-02"),
      event("initial-verification", "2026-10-03", true),
      event("follow-up-verification", "2026-10-12", true),
    ];
    const again = us([...leak, lb("2026-11-10", 30)], verified);
    expect(again.duties.filter(({ code }) => code === "repair").map(({ dueBy }) => dueBy)).toEqual([
      "2026-10-31",
      "2026-12-10",
    ]);
    const open = us([...leak, lb("2026-10-20", 30)]);
    expect(open.duties.filter(({ code }) => code === "repair")).toHaveLength(1);
  });

  /** Inspections [memory]: refrigeration of 500 lb and more quarterly, else yearly. */
  test.each([
    { pounds: 500, use: "commercial-refrigeration", dueBy: "2027-01-01" },
    { pounds: 499, use: "commercial-refrigeration", dueBy: "2027-10-01" },
    { pounds: 500, use: "comfort-cooling", dueBy: "2027-10-01" },
  ] as const)("$use of $pounds lb is inspected next by $dueBy", ({ pounds, use, dueBy }) => {
    const circuit = { fullChargeKg: toKg(pounds, "lb"), use };
    expect(us([lb("2026-10-01", pounds / 2)], [], circuit).of("leak-inspection")!.dueBy).toBe(dueBy);
  });

  test("an inspection made moves the next one; under Part 82 four quarters below end them [memory]", () => {
    const big = { fullChargeKg: toKg(600, "lb"), refrigerant: "R-22" };
    const quarters = ["2026-12-20", "2027-03-20", "2027-06-20", "2027-09-20"];
    const made = (count: number) => quarters.slice(0, count).map((on) => event("leak-inspection", on, true));
    expect(us([lb("2026-10-01", 300)], made(1), big).of("leak-inspection")!.dueBy).toBe("2027-03-20");
    expect(us([lb("2026-10-01", 300)], made(4), big).of("leak-inspection")).toBeUndefined();
  });

  test("125 % of the full charge within a calendar year is reported by 1 March of the next [secondary]", () => {
    const chronic = us([lb("2026-02-01", 60), lb("2026-07-01", 65)]);
    expect(chronic.of("chronic-report")).toMatchObject({ dueBy: "2027-03-01", doneOn: null });
    expect(us([lb("2026-02-01", 60), lb("2026-07-01", 64.9)]).of("chronic-report")).toBeUndefined();
    expect(us([lb("2025-12-31", 60), lb("2026-07-01", 65)]).of("chronic-report")).toBeUndefined();
  });
});

describe("whether the US rules hold a circuit at all", () => {
  /** 50 lb of an ozone depleting refrigerant [read]; 15 lb and GWP above 53 from 2026 [secondary]. */
  test.each([
    { refrigerant: "R-22", pounds: 50, part: "part-82" },
    { refrigerant: "R-22", pounds: 49, part: null },
    { refrigerant: "R-404A", pounds: 15, part: "part-84" },
    { refrigerant: "R-404A", pounds: 14, part: null },
    { refrigerant: "R-290", pounds: 100, part: null },
  ])("$pounds lb of $refrigerant: $part", ({ refrigerant, pounds, part }) => {
    const standing = us([lb("2026-10-01", pounds)], [], { refrigerant, fullChargeKg: toKg(pounds, "lb") });
    expect(standing.part).toBe(part);
    expect(standing.of("repair") === undefined).toBe(part === null);
  });

  test("residential and light commercial comfort cooling is outside Part 84; an unknown charge is said to be unknown", () => {
    expect(us([], [], { residentialOrLightCommercial: true }).part).toBeNull();
    expect(us([lb("2026-10-01", 10)], [], { fullChargeKg: null }).coverage.text).toContain("not on record");
  });

  test("leak detection at 1 500 lb of refrigeration, existing plant by 1 January 2027 [memory]", () => {
    const big = { fullChargeKg: toKg(1500, "lb") };
    expect(us([], [], big).of("leak-detection")).toMatchObject({ dueBy: "2027-01-01", doneOn: null });
    expect(us([], [event("detection-fitted", "2026-06-01")], big).of("leak-detection")!.doneOn).toBe("2026-06-01");
  });
});

function eu(over: Partial<CircuitUnderLaw>, events: readonly LawEvent[] = []) {
  const standing = standingUnderEu({ ...rack, installedOn: "2026-01-15", ...over }, [], events, "annualizing");
  return { ...standing, of: (code: DutyCode) => standing.duties.findLast((duty) => duty.code === code) };
}

describe("EU leak checks by CO2 equivalent, Regulation (EU) 2024/573 Article 5", () => {
  /** Bands [memory]; R-404A: 5 t at 1.275 kg, 50 t at 12.75 kg, 500 t at 127.5 kg [computed]. */
  test.each([
    { refrigerant: "R-404A", fullChargeKg: 1.27, detectionSystem: false, dueBy: undefined },
    { refrigerant: "R-404A", fullChargeKg: 1.28, detectionSystem: false, dueBy: "2027-01-15" },
    { refrigerant: "R-404A", fullChargeKg: 1.28, detectionSystem: true, dueBy: "2028-01-15" },
    { refrigerant: "R-404A", fullChargeKg: 12.8, detectionSystem: false, dueBy: "2026-07-15" },
    { refrigerant: "R-404A", fullChargeKg: 12.8, detectionSystem: true, dueBy: "2027-01-15" },
    { refrigerant: "R-404A", fullChargeKg: 128, detectionSystem: false, dueBy: "2026-04-15" },
    { refrigerant: "R-404A", fullChargeKg: 128, detectionSystem: true, dueBy: "2026-07-15" },
    { refrigerant: "R-1234yf", fullChargeKg: 0.99, detectionSystem: false, dueBy: undefined },
    { refrigerant: "R-1234yf", fullChargeKg: 1, detectionSystem: false, dueBy: "2027-01-15" },
    { refrigerant: "R-744", fullChargeKg: 500, detectionSystem: false, dueBy: undefined },
  ])("$fullChargeKg kg of $refrigerant, detection $detectionSystem: next check by $dueBy", ({ dueBy, ...circuit }) => {
    expect(eu(circuit).of("leak-check")?.dueBy).toBe(dueBy);
  });

  test("a check made moves the next one", () => {
    const made = [event("leak-check", "2026-06-10", true)];
    expect(eu({ fullChargeKg: 12.8 }, made).of("leak-check")!.dueBy).toBe("2026-12-10");
  });

  test("a leak found is repaired without undue delay (Article 4) and checked again from a day to a month after", () => {
    const found = [event("leak-check", "2026-06-10", false)];
    expect(eu({ fullChargeKg: 12.8 }, found).of("repair")).toMatchObject({ dueBy: "2026-06-10", doneOn: null });
    const repaired = [...found, event("repair", "2026-06-11")];
    expect(eu({ fullChargeKg: 12.8 }, repaired).of("repair")!.doneOn).toBe("2026-06-11");
    expect(eu({ fullChargeKg: 12.8 }, repaired).of("recheck")).toMatchObject({
      from: "2026-06-12",
      dueBy: "2026-07-11",
    });
    const sameDay = [...repaired, event("recheck", "2026-06-11", true)];
    expect(eu({ fullChargeKg: 12.8 }, sameDay).of("recheck")!.doneOn).toBeNull();
    const checked = [...repaired, event("recheck", "2026-06-20", true)];
    expect(eu({ fullChargeKg: 12.8 }, checked).of("recheck")!.doneOn).toBe("2026-06-20");
  });

  test("a detection system is mandatory at 500 t [secondary] and looked at every 12 months [read for 517/2014]", () => {
    expect(eu({ fullChargeKg: 127 }).of("leak-detection")).toBeUndefined();
    expect(eu({ fullChargeKg: 128 }).of("leak-detection")!.doneOn).toBeNull();
    expect(eu({ fullChargeKg: 128, detectionSystem: true }).of("detection-check")!.dueBy).toBe("2027-01-15");
  });

  test("hermetic and labelled so, below 10 t: no regular check [memory]", () => {
    expect(eu({ fullChargeKg: 2.5, hermeticLabelled: true }).of("leak-check")).toBeUndefined();
    expect(eu({ fullChargeKg: 2.6, hermeticLabelled: true }).of("leak-check")).toBeDefined();
  });
});

describe("refrigerant taken out for the season and put back (40 CFR 82.157(b); the definition of 82.152 from memory)", () => {
  const back = (on: string) => event("seasonal-return", on);

  test.each([
    { name: "all of it comes back", added: [lb("2026-04-10", 30)], counted: [] },
    { name: "more comes back than was taken out", added: [lb("2026-04-10", 34)], counted: [lb("2026-04-10", 4)] },
    { name: "it comes back after more than a year", added: [lb("2026-10-20", 30)], counted: [lb("2026-10-20", 30)] },
    {
      name: "it is not taken twice",
      added: [lb("2026-04-10", 20), lb("2026-05-10", 20)],
      counted: [lb("2026-05-10", 10)],
    },
  ])("$name", ({ added, counted }) => {
    const removed = [lb("2025-10-15", 30)];
    const left = withoutSeasonalReturns(
      added,
      removed,
      added.map(({ on }) => back(on)),
    );
    expect(left.map(({ on }) => on)).toEqual(counted.map(({ on }) => on));
    for (const [index, each] of left.entries()) expect(Math.abs(each.grams - counted[index]!.grams)).toBeLessThan(2);
  });

  test("an addition nobody called so counts wholly, whatever was taken out before", () => {
    expect(withoutSeasonalReturns([lb("2026-04-10", 30)], [lb("2025-10-15", 30)], [])).toEqual([lb("2026-04-10", 30)]);
  });

  test("a return of the season asks for no repair; the same addition without it does", () => {
    const added = [lb("2026-04-10", 30)];
    expect(us(added).of("repair")).toBeDefined();
    expect(
      us(withoutSeasonalReturns(added, [lb("2025-10-15", 30)], [back("2026-04-10")])).of("repair"),
    ).toBeUndefined();
  });
});
