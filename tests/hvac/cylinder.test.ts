import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Cylinder,
  type CylinderFill,
  cylinderLimit,
  judgeCylinderFill,
  requalificationDueOn,
} from "@/lib/hvac/cylinder";
import { findRefrigerant, listRefrigerants } from "@/lib/hvac/refrigerants/refrigerant";
import { toPa } from "@/lib/hvac/units";

const cylinder: Cylinder = {
  waterCapacityKg: 21.6,
  tareKg: 12,
  contents: null,
  requalificationDueOn: "2028-04-30",
  disposable: false,
  damaged: false,
  markedForFlammables: false,
};
const fill: CylinderFill = {
  tense: "intended",
  refrigerant: findRefrigerant("R-410A")!,
  cylinder,
  grossKg: 20,
  date: "2026-11-25",
};
const codes = (over: Partial<CylinderFill>, stamp: Partial<Cylinder> = {}) => {
  const judged = judgeCylinderFill({ ...fill, ...over, cylinder: { ...cylinder, ...stamp } });
  return [judged.verdict, ...judged.reasons.map(({ code }) => code)];
};

describe("filling a recovery cylinder", () => {
  test("within the limit it is accepted, and the room left is told", () => {
    const judged = judgeCylinderFill(fill);
    expect(judged.verdict).toBe("accepted");
    expect(judged.roomKg).toBeCloseTo(0.8 * 21.6 * 1.0617 - 8, 1);
  });

  test("an intended overfill is refused; one that happened is an alarm, never refused", () => {
    expect(codes({ grossKg: 30.5 })).toEqual(["refused", "over-limit"]);
    expect(codes({ grossKg: 30.5, tense: "happened" })).toEqual(["alarm", "over-limit"]);
    expect(codes({ grossKg: 31, tense: "happened" })).toEqual(["alarm", "over-limit", "liquid-full-when-hot"]);
  });

  test("a light refrigerant is limited by its density, not by the water capacity", () => {
    const refrigerant = findRefrigerant("R-290")!;
    expect(codes({ refrigerant, grossKg: 12 + 12 }, { markedForFlammables: true })).toContain("over-limit");
  });

  test("one cylinder, one refrigerant", () => {
    expect(codes({}, { contents: "R-22" })).toEqual(["refused", "other-refrigerant"]);
    expect(codes({}, { contents: "some mixture" })).toEqual(["refused", "other-refrigerant"]);
    for (const contents of ["R-410A", "r410a"]) expect(codes({}, { contents })[0]).toBe("accepted");
  });

  test("the day of requalification still counts, the day after does not, an unread stamp neither", () => {
    expect(codes({ date: "2028-04-30" })[0]).toBe("accepted");
    expect(codes({ date: "2028-05-01" })).toEqual(["refused", "requalification-overdue"]);
    expect(codes({}, { requalificationDueOn: null })).toEqual(["refused", "requalification-unknown"]);
    expect(requalificationDueOn("2023-04")).toBe("2028-04-30");
    expect(requalificationDueOn("2024-02", 12)).toBe("2036-02-29");
  });

  test("disposable, damaged, unmarked for flammables or too weak: each is named", () => {
    expect(codes({}, { disposable: true })).toEqual(["refused", "disposable"]);
    expect(codes({}, { damaged: true })).toEqual(["refused", "damaged"]);
    expect(codes({ refrigerant: findRefrigerant("R-32")! })).toEqual(["refused", "not-for-flammables"]);
    // 49 CFR 173.301 (memory) gives what the trade says: 4BA350 is not enough for R-410A, 4BA400 is.
    expect(codes({}, { servicePressureGaugePa: toPa(350, "psi") })).toEqual(["refused", "service-pressure-too-low"]);
    expect(codes({}, { servicePressureGaugePa: toPa(400, "psi") })[0]).toBe("accepted");
  });

  test("R-744 has no limit but the one on the label", () => {
    const refrigerant = findRefrigerant("R-744")!;
    expect(codes({ refrigerant })).toEqual(["refused", "limit-unknown"]);
    expect(codes({ refrigerant }, { labelLimitKg: 9 })[0]).toBe("accepted");
    expect(codes({ refrigerant }, { labelLimitKg: 7 })).toEqual(["refused", "over-limit"]);
  });

  test("a gross mass under the tare is an error on one of them", () => {
    expect(codes({ grossKg: 11 })).toEqual(["refused", "below-tare"]);
  });

  test("no refrigerant at its limit is liquid-full when hot, and the lower label governs", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...listRefrigerants().filter(({ name }) => name !== "R-744")),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: 0.1, max: 2, noNaN: true }),
        (refrigerant, waterCapacityKg, labelShare) => {
          const free = cylinderLimit({ ...cylinder, waterCapacityKg }, refrigerant);
          if (!free.ok) throw new Error("a limit exists");
          const grossKg = free.value.grossKg;
          const stamp = { ...cylinder, waterCapacityKg, markedForFlammables: true };
          const judged = judgeCylinderFill({ ...fill, refrigerant, cylinder: stamp, grossKg });
          expect(judged.hotLiquidFraction).toBeLessThanOrEqual(1);
          const labelLimitKg = labelShare * free.value.netKg;
          const labelled = cylinderLimit({ ...stamp, labelLimitKg }, refrigerant);
          if (!labelled.ok) throw new Error("a limit exists");
          expect(labelled.value.netKg).toBe(Math.min(labelLimitKg, free.value.netKg));
        },
      ),
    );
  });
});
