import { describe, expect, test } from "vitest";
import { judgePumpOil, planDilution } from "@/lib/hvac/evacuation-plan";
import { EVACUATION_CRITERIA, findEvacuationCriterion } from "@/lib/hvac/rules/evacuation-criteria";
import { fromPa, micronToPa, paToMicron } from "@/lib/hvac/units";

/** Criteria rows as published or customary; each with the mark of its source. */
const rows = [
  {
    id: "us_split_triple",
    target: 500,
    holdMin: 20,
    end: 500,
    failAt: null,
    dwellMin: null,
    first: 23_000,
    mark: "read",
  },
  { id: "us_ductless", target: 500, holdMin: 15, end: 700, failAt: 800, dwellMin: null, first: null, mark: "read" },
  { id: "us_deep", target: 500, holdMin: 7, end: null, failAt: null, dwellMin: null, first: null, mark: "read" },
  {
    id: "chiller_r134a",
    target: 3080,
    holdMin: 1440,
    end: 4350,
    failAt: null,
    dwellMin: 120,
    first: null,
    mark: "read",
  },
  {
    id: "training_min",
    target: 500,
    holdMin: null,
    end: null,
    failAt: null,
    dwellMin: null,
    first: null,
    mark: "secondary",
  },
  { id: "split_5torr", target: 5000, holdMin: null, end: null, failAt: null, dwellMin: 60, first: null, mark: "read" },
  {
    id: "en378_iso5149",
    target: 2025.2,
    holdMin: null,
    end: 2025.2,
    failAt: null,
    dwellMin: null,
    first: null,
    mark: "memory",
  },
  {
    id: "mfr_typical",
    target: 500,
    holdMin: 10,
    end: 1000,
    failAt: null,
    dwellMin: null,
    first: null,
    mark: "common-practice",
  },
  {
    id: "poe_deep",
    target: 250,
    holdMin: 15,
    end: 500,
    failAt: null,
    dwellMin: null,
    first: null,
    mark: "common-practice",
  },
  { id: "vrf", target: 500, holdMin: 60, end: 500, failAt: null, dwellMin: null, first: null, mark: "memory" },
  {
    id: "small_factory",
    target: 50,
    holdMin: null,
    end: null,
    failAt: null,
    dwellMin: null,
    first: null,
    mark: "secondary",
  },
];

describe("evacuation criteria", () => {
  test("every row is here and nothing else", () => {
    expect(EVACUATION_CRITERIA.map(({ id }) => id).sort()).toEqual(rows.map(({ id }) => id).sort());
  });

  test.each(rows)("$id stands as published ($mark)", (row) => {
    const { evacuate, hold, mark, ownChoice } = findEvacuationCriterion(row.id)!;
    expect(mark).toBe(row.mark);
    expect(paToMicron(evacuate.targetPa)).toBeCloseTo(row.target, 0);
    expect(hold.targetPa).toBe(evacuate.targetPa);
    expect(evacuate.dwellS).toBe(row.dwellMin === null ? null : row.dwellMin * 60);
    expect(evacuate.preCycles.map(({ toPa }) => Math.round(paToMicron(toPa)))).toEqual(
      row.first === null ? [] : [row.first],
    );
    if (row.holdMin === null) expect(ownChoice).toContain("holdS");
    else expect(hold.holdS).toBe(row.holdMin * 60);
    if (row.end === null) expect(ownChoice).toContain("maxFinalPa");
    else expect(paToMicron(hold.maxFinalPa)).toBeCloseTo(row.end, 0);
    expect(hold.failAtPa === null ? null : Math.round(paToMicron(hold.failAtPa))).toBe(row.failAt);
    if (row.id === "chiller_r134a") {
      expect(fromPa(hold.maxSteadyRisePaPerS * 86_400, "inHg")).toBeCloseTo(0.05, 9); // 0.17 kPa in a day, as printed
    } else {
      expect(ownChoice).toContain("maxSteadyRisePaPerS");
      expect(paToMicron(hold.maxSteadyRisePaPerS * 60)).toBeCloseTo(5, 9);
    }
  });
});

/** Computed: ideal mixing, broken to one atmosphere. */
test.each([
  { micron: [500], fraction: 6.58e-4 },
  { micron: [1000], fraction: 1.316e-3 },
  { micron: [5000], fraction: 6.58e-3 },
  { micron: [1000, 1000, 1000], fraction: 2.28e-9 },
])("breaking to one atmosphere from $micron micron leaves $fraction of the first gas", ({ micron, fraction }) => {
  const cycles = micron.map((pulled) => ({ pullToPa: micronToPa(pulled), breakToPa: 101_325 }));
  const { remainingFraction } = planDilution(cycles, 0.0124, 293.15);
  expect(Math.abs(remainingFraction / fraction - 1)).toBeLessThan(0.0025); // three printed digits
});

test("pump oil is changed after ten hours of running, or at once after a wet circuit (handbook page, secondary)", () => {
  const oil = {
    runningSinceChangeS: 35_000,
    wetOrContaminatedSinceChange: false,
    look: "clear",
    blankOffPa: null,
  } as const;
  expect(judgePumpOil(oil)).toMatchObject({ verdict: "fit", remainingS: 1000 });
  expect(judgePumpOil({ ...oil, runningSinceChangeS: 36_000 }).verdict).toBe("change-now");
  expect(judgePumpOil({ ...oil, wetOrContaminatedSinceChange: true }).verdict).toBe("change-now");
});
