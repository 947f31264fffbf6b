import { describe, expect, test } from "vitest";
import { type Cylinder, cylinderLimit, judgeCylinderFill, maxCylinderFillKg } from "@/lib/hvac/cylinder";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { liquidDensityKgPerM3 } from "@/lib/hvac/refrigerants/saturation";
import { fromKg, toKg } from "@/lib/hvac/units";

describe("recovery cylinders", () => {
  test("1 000 lb of water capacity and R-22 of gravity 1.197 take 957.60 lb, 1 337.60 gross (AHRI Guideline K, trade article)", () => {
    const netKg = maxCylinderFillKg(toKg(1000, "lb"), 1.197);
    expect(fromKg(netKg, "lb")).toBeCloseTo(957.6, 9);
    expect(fromKg(netKg + toKg(380, "lb"), "lb")).toBeCloseTo(1337.6, 9);
  });

  /** Computed from equations of state: liquid at 25 C and 54.4 C, gravity against water of 997.05 kg/m3. */
  const densities = [
    { name: "R-410A", at25: 1058.6, at54: 870.4, gravity: 1.062, hotPercent: 97.3 },
    { name: "R-134a", at25: 1206.7, at54: 1081.1, gravity: 1.21, hotPercent: 89.3 },
    { name: "R-32", at25: 961, at54: 811.9, gravity: 0.964, hotPercent: 94.7 },
    { name: "R-290", at25: 492.4, at54: 439.9, gravity: 0.494, hotPercent: 89.5 },
  ];
  test.each(densities)("$name of gravity $gravity fills $hotPercent % when hot", (row) => {
    const refrigerant = findRefrigerant(row.name)!;
    for (const [temperatureK, expected] of [
      [298.15, row.at25],
      [327.55, row.at54],
    ] as const) {
      const density = liquidDensityKgPerM3(refrigerant, temperatureK);
      if (!density.ok) throw new Error("inside the range");
      expect(Math.abs(density.value - expected) / expected).toBeLessThan(0.0017); // the fit's error on R-410A
    }
    const cylinder: Cylinder = {
      waterCapacityKg: 20,
      tareKg: 10,
      contents: null,
      requalificationDueOn: "2030-01-31",
      disposable: false,
      damaged: false,
      markedForFlammables: true,
    };
    const limit = cylinderLimit(cylinder, refrigerant);
    if (!limit.ok) throw new Error("a limit exists");
    expect(limit.value.netKg / 20 / 0.8).toBeCloseTo(row.gravity, 2);
    const judged = judgeCylinderFill({
      tense: "intended",
      refrigerant,
      cylinder,
      grossKg: limit.value.grossKg,
      date: "2026-11-25",
    });
    expect(judged.verdict).toBe("accepted");
    expect(Math.abs(judged.hotLiquidFraction! * 100 - row.hotPercent)).toBeLessThan(0.2);
  });

  test("R-22 at 25 C is 1 190.65 kg/m3 (computed), within 0.3 % of the published gravity", () => {
    const density = liquidDensityKgPerM3(findRefrigerant("R-22")!, 298.15);
    if (!density.ok) throw new Error("inside the range");
    expect(Math.abs(density.value - 1190.65)).toBeLessThan(0.15);
    expect(density.value / 997.05).toBeCloseTo(1.194, 3);
    expect(Math.abs(density.value / 997.05 / 1.197 - 1)).toBeLessThan(0.003);
  });
});
