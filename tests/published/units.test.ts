import { expect, test } from "vitest";
import { celsiusToKelvin, fromKelvin, fromPa, micronToPa, STANDARD_ATMOSPHERE_PA, toKg, toPa } from "@/lib/hvac/units";

/** Definition of the torr (101 325/760 Pa), NIST SP 811 Appendix B for the rest. */
const conversions = [
  { from: [1, "micron"], pa: 0.133322368421, relative: 1e-11 },
  { from: [500, "micron"], pa: 66.661184, relative: 1e-8 },
  { from: [1000, "micron"], pa: 133.322368, relative: 1e-8 },
  { from: [2000, "micron"], pa: 266.644737, relative: 1e-8 },
  { from: [760_000, "micron"], pa: 101_325, relative: 1e-12 },
  { from: [5, "Torr"], pa: 666.61184, relative: 1e-8 },
  { from: [1, "inHg"], pa: 3386.389, relative: 1e-12 },
  { from: [1, "psi"], pa: 6894.757293168, relative: 1e-12 },
  { from: [1, "mbar"], pa: 100, relative: 0 },
  { from: [1, "bar"], pa: 100_000, relative: 0 },
  { from: [1, "mmHg"], pa: 133.3224, relative: 1e-6 },
] as const;

test.each(conversions)("$from is $pa Pa", ({ from: [value, unit], pa, relative }) => {
  expect(Math.abs(toPa(value, unit) - pa)).toBeLessThanOrEqual(pa * relative);
});

/** Printed beside each other in evacuation instructions and tables. */
const sideBySide = [
  { micron: 760_000, value: 1013.25, unit: "mbar", within: 1e-9, source: "definition" },
  { micron: 760_000, value: 29.9213, unit: "inHg", within: 5e-5, source: "definition, mercury at 0 C" },
  { micron: 25_400, value: 1, unit: "inHg", within: 1e-6, source: "25.4 mm of mercury" },
  { micron: 750.0617, value: 1, unit: "mbar", within: 5e-8, source: "definition" },
  { micron: 1, value: 1.33322368e-3, unit: "mbar", within: 5e-12, source: "definition" },
  { micron: 500, value: 66.66, unit: "Pa", within: 0.005, source: "definition" },
  { micron: 2000, value: 266.6, unit: "Pa", within: 0.05, source: "definition" },
  { micron: 5000, value: 667, unit: "Pa", within: 0.5, source: "R-410A service manuals, 5 Torr" },
  { micron: 500, value: 0.6666, unit: "mbar", within: 5e-5, source: "definition" },
  { micron: 2025.2, value: 270, unit: "Pa", within: 0.01, source: "definition" },
] as const;

test.each(sideBySide)("$micron micron is $value $unit ($source)", ({ micron, value, unit, within }) => {
  expect(Math.abs(fromPa(micronToPa(micron), unit) - value)).toBeLessThanOrEqual(within);
});

/** Test pressures as makers print them in two units beside each other (read). */
test.each([
  { psi: 602, kPa: 4150, within: 5, source: "R-410A multi-split manual" },
  { psi: 230, kPa: 1585, within: 1, source: "chiller instructions, nitrogen at most" },
])("$psi psig is $kPa kPa ($source)", ({ psi, kPa, within }) => {
  expect(Math.abs(toPa(psi, "psi") / 1000 - kPa)).toBeLessThanOrEqual(within);
});

test("0.05 inHg is 0.17 kPa (chiller instructions), -24.5 C is -12.1 F (computed)", () => {
  expect(toPa(0.05, "inHg") / 1000).toBeCloseTo(0.17, 2);
  expect(fromKelvin(celsiusToKelvin(-24.5), "F")).toBeCloseTo(-12.1, 1);
});

test("23 000 micron is the 29.01 inHg of vacuum an installation manual prints", () => {
  const vacuumInHg = fromPa(STANDARD_ATMOSPHERE_PA - micronToPa(23_000), "inHg");
  expect(vacuumInHg).toBeCloseTo(29.0157, 3);
  expect(Math.floor(vacuumInHg * 100) / 100).toBe(29.01);
});

test("a pound and an ounce are the international ones", () => {
  expect(toKg(1, "lb")).toBe(0.45359237);
  expect(toKg(1, "oz") * 1000).toBeCloseTo(28.3495, 4);
});
