import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  saturationPressurePa,
  saturationSlopePaPerK,
  saturationTemperatureK,
  WATER_CRITICAL_POINT,
  waterPhase,
} from "@/lib/hvac/water";

describe("water", () => {
  test("temperature and pressure are each other's inverse from deep ice to the critical point", () => {
    fc.assert(
      fc.property(fc.double({ min: 125, max: 647.09, noNaN: true }), (temperatureK) => {
        expect(saturationTemperatureK(saturationPressurePa(temperatureK))).toBeCloseTo(temperatureK, 5);
      }),
    );
  });

  test("a warmer surface never has the lower vapour pressure", () => {
    const temperature = fc.double({ min: 60, max: 647, noNaN: true });
    fc.assert(
      fc.property(temperature, fc.double({ min: 1e-3, max: 20, noNaN: true }), (temperatureK, stepK) => {
        const warmerK = Math.min(temperatureK + stepK, WATER_CRITICAL_POINT.temperatureK);
        expect(saturationPressurePa(warmerK)).toBeGreaterThan(saturationPressurePa(temperatureK));
      }),
    );
  });

  test.each([230, 250, 273, 274, 293.15, 400, 600])("the slope at %d K is that of the curve itself", (temperatureK) => {
    const differencePa = saturationPressurePa(temperatureK + 1e-3) - saturationPressurePa(temperatureK - 1e-3);
    expect(saturationSlopePaPerK(temperatureK) / (differencePa / 2e-3)).toBeCloseTo(1, 6);
  });

  test("below the triple point it is ice, at and above it liquid", () => {
    expect([273.15, 273.16, 280].map(waterPhase)).toEqual(["ice", "liquid", "liquid"]);
  });

  test.each([49, 648, Number.NaN, -1])("%d K has no saturation pressure", (temperatureK) => {
    expect(() => saturationPressurePa(temperatureK)).toThrow(RangeError);
  });

  test.each([0, -5, 3e7, Number.NaN])("%d Pa has no saturation temperature", (pressurePa) => {
    expect(() => saturationTemperatureK(pressurePa)).toThrow(RangeError);
  });
});
