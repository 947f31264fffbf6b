import { expect, test } from "vitest";
import { cyclesForFraction, judgePumpOil, planDilution } from "@/lib/hvac/evacuation-plan";
import { defaultEvacuationCriterion } from "@/lib/hvac/rules/rule-sets";

const cycle = { pullToPa: 133.322, breakToPa: 101_325 };

test("each cycle takes the same share of what the one before left", () => {
  const { fractionAfterEach } = planDilution([cycle, cycle, cycle], 0.0124, 293.15);
  expect(fractionAfterEach[1]! / fractionAfterEach[0]!).toBeCloseTo(fractionAfterEach[0]!, 12);
  expect(cyclesForFraction(fractionAfterEach[2]!, cycle)).toBe(3);
  expect(cyclesForFraction(fractionAfterEach[2]! * 1.01, cycle)).toBe(3);
  expect(cyclesForFraction(fractionAfterEach[2]! * 0.99, cycle)).toBe(4);
});

test("three breaks of a 12.4 L circuit take its volume of nitrogen three times over", () => {
  // 1.1653 kg/m3 is nitrogen at 1 atm and 20 C (ideal gas, 28.0134 g/mol)
  const { nitrogenKg } = planDilution([cycle, cycle, cycle], 0.0124, 293.15);
  expect(nitrogenKg).toBeCloseTo(3 * 0.0124 * 1.1653 * (1 - 133.322 / 101_325), 4);
});

test("a break below its own pull is a mistake of the caller", () => {
  expect(() => planDilution([{ pullToPa: 200, breakToPa: 100 }], 1, 293)).toThrow(RangeError);
});

test("milky or dark oil and a weak blank-off each send the pump to an oil change", () => {
  const oil = { runningSinceChangeS: 0, wetOrContaminatedSinceChange: false, look: "fresh", blankOffPa: 5 } as const;
  expect(judgePumpOil(oil).verdict).toBe("fit");
  for (const worn of [{ look: "cloudy" }, { look: "dark" }, { blankOffPa: 20 }] as const)
    expect(judgePumpOil({ ...oil, ...worn }).verdict).toBe("change-now");
});

test("each rule set starts from a criterion of its own", () => {
  expect(defaultEvacuationCriterion("us").id).toBe("mfr_typical");
  expect(defaultEvacuationCriterion("eu").evacuate.targetPa).toBe(270);
});
