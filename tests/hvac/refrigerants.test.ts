import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findRefrigerant, isFlammable, listRefrigerants } from "@/lib/hvac/refrigerants/refrigerant";
import {
  bubblePressurePa,
  bubbleTemperatureK,
  dewPressurePa,
  dewTemperatureK,
  liquidDensityKgPerM3,
  saturationRangeK,
  vapourDensityKgPerM3,
} from "@/lib/hvac/refrigerants/saturation";

const anyRefrigerant = fc.constantFrom(...listRefrigerants());
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe("refrigerants", () => {
  test("a temperature comes back from its own pressure, on both lines", () => {
    fc.assert(
      fc.property(anyRefrigerant, share, (refrigerant, at) => {
        const { fromK, toK } = saturationRangeK(refrigerant);
        const temperatureK = fromK + at * (toK - fromK);
        for (const [forth, back] of [
          [bubblePressurePa, bubbleTemperatureK],
          [dewPressurePa, dewTemperatureK],
        ] as const) {
          const pressure = forth(refrigerant, temperatureK);
          if (!pressure.ok) throw new Error("inside the range");
          const inverse = back(refrigerant, pressure.value);
          // At the ends, rounding may put the pressure a hair outside.
          if (inverse.ok) expect(inverse.value).toBeCloseTo(temperatureK, 6);
          else expect(Math.min(at, 1 - at)).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 2_000 },
    );
  });

  test("the bubble pressure is never under the dew pressure, liquid never lighter than vapour", () => {
    fc.assert(
      fc.property(anyRefrigerant, share, (refrigerant, at) => {
        const { fromK, toK } = saturationRangeK(refrigerant);
        const temperatureK = fromK + at * (toK - fromK);
        const [bubble, dew, liquid, vapour] = [
          bubblePressurePa(refrigerant, temperatureK),
          dewPressurePa(refrigerant, temperatureK),
          liquidDensityKgPerM3(refrigerant, temperatureK),
          vapourDensityKgPerM3(refrigerant, temperatureK),
        ];
        if (!(bubble.ok && dew.ok && liquid.ok && vapour.ok)) throw new Error("inside the range");
        const fitErrorFraction = (2 * refrigerant.saturation.pressureErrorPercent) / 100;
        expect(bubble.value).toBeGreaterThan(dew.value * (1 - fitErrorFraction));
        expect(liquid.value).toBeGreaterThan(vapour.value);
      }),
      { numRuns: 2_000 },
    );
  });

  test("outside the correlation it says the range instead of a number", () => {
    const r410a = findRefrigerant("R-410A")!;
    const tooHot = bubblePressurePa(r410a, 339);
    expect(tooHot).toEqual({
      ok: false,
      error: { code: "temperature-outside-correlation", temperatureK: 339, fromK: 213.14999999999998, toK: 338.15 },
    });
    expect(dewTemperatureK(r410a, 6e6)).toMatchObject({ ok: false, error: { code: "pressure-outside-correlation" } });
    for (const nonsense of [Number.NaN, -1, 0, Number.POSITIVE_INFINITY]) {
      expect(bubbleTemperatureK(r410a, nonsense).ok).toBe(false);
      expect(dewPressurePa(r410a, nonsense).ok).toBe(false);
      expect(liquidDensityKgPerM3(r410a, nonsense).ok).toBe(false);
      expect(vapourDensityKgPerM3(r410a, nonsense).ok).toBe(false);
    }
  });

  test("a designation is found as people write it, an unknown one is not", () => {
    for (const name of ["R-1234yf", "r1234YF", "R 1234yf"]) expect(findRefrigerant(name)?.name).toBe("R-1234yf");
    expect(findRefrigerant("R-999")).toBeUndefined();
    expect(findRefrigerant("")).toBeUndefined();
  });

  test("a flammable refrigerant is one that has a lower flammable limit", () => {
    for (const { safetyClass, lowerFlammableLimit } of listRefrigerants())
      expect(lowerFlammableLimit !== null).toBe(isFlammable(safetyClass));
  });

  test("the mass fractions of each refrigerant add up to one", () => {
    for (const { massFractions } of listRefrigerants())
      expect(Object.values(massFractions).reduce((sum, part) => sum + part)).toBeCloseTo(1, 12);
  });
});
