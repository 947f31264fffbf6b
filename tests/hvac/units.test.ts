import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  fromKelvin,
  fromKelvinDifference,
  fromKg,
  fromMetre,
  fromPa,
  micronToPa,
  paToMicron,
  toKelvin,
  toKelvinDifference,
  toKg,
  toMetre,
  toPa,
} from "@/lib/hvac/units";

const finite = fc.double({ min: -1e9, max: 1e9, noNaN: true });

/** Equal to twelve digits of the larger of value and scale. */
function expectSame(actual: number, expected: number, scale = 1) {
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(1e-12 * Math.max(Math.abs(expected), scale));
}

describe("units", () => {
  test("every unit comes back as it went", () => {
    fc.assert(
      fc.property(finite, (value) => {
        for (const unit of ["Pa", "kPa", "MPa", "mbar", "bar", "micron", "Torr", "mmHg", "inHg", "psi"] as const)
          expectSame(fromPa(toPa(value, unit), unit), value);
        for (const unit of ["kg", "g", "lb", "oz"] as const) expectSame(fromKg(toKg(value, unit), unit), value);
        for (const unit of ["m", "mm", "ft", "in"] as const) expectSame(fromMetre(toMetre(value, unit), unit), value);
        for (const unit of ["K", "C", "F"] as const) {
          expectSame(fromKelvin(toKelvin(value, unit), unit), value, 1_000);
          expectSame(fromKelvinDifference(toKelvinDifference(value, unit), unit), value);
        }
        expectSame(paToMicron(micronToPa(value)), value);
      }),
    );
  });

  test("a difference of temperatures has no zero point", () => {
    expect(toKelvinDifference(18, "F")).toBe(10);
    expect(toKelvin(32, "F")).toBeCloseTo(273.15, 12);
  });
});
