import { expect, test } from "vitest";
import {
  apertureConductanceM3PerS,
  flowRegime,
  inSeriesM3PerS,
  knudsenNumber,
  meanMolecularSpeedMPerS,
  molecularConductanceM3PerS,
  pipeConductanceM3PerS,
  pumpDownTimeS,
  shortPipeConductanceM3PerS,
  viscousConductanceM3PerS,
} from "@/lib/hvac/conductance";
import { smallestLeakShownPaM3PerS } from "@/lib/hvac/pressure-test/plan-pressure-test";
import { micronToPa, toPa } from "@/lib/hvac/units";

const within = (value: number, printed: number, relative: number) =>
  expect(Math.abs(value / printed - 1)).toBeLessThanOrEqual(relative);

test("molecular conductance of a 70 mm pipe, 2.47 m long, is 0.017123 m3/s (vacuum handbook, 7.3.2)", () => {
  const conductance = molecularConductanceM3PerS({ innerDiameterM: 0.07, lengthM: 2.47 }, 471);
  within(conductance, 0.017123, 1e-4);
  within(inSeriesM3PerS(conductance, 2.9722e-2), 1.0864e-2, 1e-4);
});

test("air at 20 C moves at 462.9 m/s on average (vacuum handbook, form and example)", () => {
  within(meanMolecularSpeedMPerS(293.15, 0.02897), 462.9, 3e-4);
});

test("viscous conductance in air is 135 d^4 p / L in cm, mbar and L/s (vacuum handbook)", () => {
  within(viscousConductanceM3PerS({ innerDiameterM: 0.01, lengthM: 0.01 }, 100, 18.2e-6) * 1000, 135, 0.005);
});

test("molecular conductance in air is 12.1 d^3 / L in cm and L/s (vacuum handbook)", () => {
  within(molecularConductanceM3PerS({ innerDiameterM: 0.01, lengthM: 0.01 }, 462.9) * 1000, 12.1, 0.005);
});

// Molecular flow goes with the mean speed of the gas, as helium to nitrogen, air and water are printed (leak testing manual).
test.each([
  { name: "nitrogen", kgPerMol: 0.028013, printed: 0.374, relative: 0.012 },
  { name: "air", kgPerMol: 0.02897, printed: 0.374, relative: 0.012 },
  { name: "water", kgPerMol: 0.018015, printed: 0.469, relative: 0.012 },
])("what lets helium through by molecules lets $printed of it through as $name", (row) => {
  const pipe = { innerDiameterM: 0.001, lengthM: 0.1 };
  const through = (kgPerMol: number) => molecularConductanceM3PerS(pipe, meanMolecularSpeedMPerS(293.15, kgPerMol));
  within(through(row.kgPerMol) / through(0.0040026), row.printed, row.relative);
});

test("another gas or warmth goes with the root of T/293.15 times 28.97/M (vacuum handbook, read)", () => {
  const pipe = { innerDiameterM: 0.01, lengthM: 1 };
  const at = (temperatureK: number, kgPerMol: number) =>
    molecularConductanceM3PerS(pipe, meanMolecularSpeedMPerS(temperatureK, kgPerMol));
  for (const [temperatureK, gPerMol] of [
    [273.15, 28.97],
    [293.15, 18.015],
    [323.15, 72.585],
  ] as const)
    within(
      at(temperatureK, gPerMol / 1000) / at(293.15, 0.02897),
      Math.sqrt((temperatureK / 293.15) * (28.97 / gPerMol)),
      1e-12,
    );
});

test("viscous conductance in air is 180 d^4 p / L in cm, Torr and L/s (computed from the handbook's 135 in mbar)", () => {
  const atOneTorr = viscousConductanceM3PerS({ innerDiameterM: 0.01, lengthM: 0.01 }, toPa(1, "Torr"), 18.2e-6);
  within(atOneTorr * 1000, 180, 0.005);
});

test("an opening lets 11.6 L/s of air through each square centimetre (vacuum handbook)", () => {
  within(apertureConductanceM3PerS(1e-4, 462.9) * 1000, 11.6, 0.005);
});

test("a pipe as long as it is wide conducts 3/7 of the long-pipe value (vacuum handbook, short tube)", () => {
  const pipe = { innerDiameterM: 0.05, lengthM: 0.05 };
  within(shortPipeConductanceM3PerS(pipe, 462.9) / molecularConductanceM3PerS(pipe, 462.9), 3 / 7, 1e-9);
});

// Air at 500 micron, viscous plus molecular, before a pump of 2.832 L/s; computed by independent code.
const hoses = [
  { mm: 4.8, m: 1.5, knudsen: 0.021, litresPerS: 0.0408, effective: 0.0402 },
  { mm: 9.5, m: 1.5, knudsen: 0.011, litresPerS: 0.557, effective: 0.466 },
  { mm: 12.7, m: 1.5, knudsen: 0.008, litresPerS: 1.725, effective: 1.072 },
  { mm: 19, m: 1, knudsen: 0.005, litresPerS: 12.55, effective: 2.31 },
];
test.each(hoses)("a hose of $mm mm and $m m conducts $litresPerS L/s at 500 micron (hose table)", (row) => {
  const meanPa = micronToPa(500);
  const conductance = pipeConductanceM3PerS({ innerDiameterM: row.mm / 1000, lengthM: row.m }, meanPa);
  within(conductance * 1000, row.litresPerS, 0.002);
  within(inSeriesM3PerS(conductance, 2.832e-3) * 1000, row.effective, 0.002);
  expect(Math.abs(knudsenNumber(row.mm / 1000, meanPa) - row.knudsen)).toBeLessThanOrEqual(6e-4);
});

test("flow is viscous below a Knudsen number of 0.01 and molecular above 0.5 (vacuum handbook)", () => {
  expect([0.009, 0.1, 0.6].map(flowRegime)).toEqual(["viscous", "transition", "molecular"]);
});

test("10 L at 1 L/s fall from one atmosphere to 500 micron in 73.2647 s (pump-down formula)", () => {
  within(pumpDownTimeS(0.01, 0.001, 101_325, 66.6612), 73.2647, 1e-5);
});

// 5 L under nitrogen: smallest leak for a change and a time, computed.
const smallest = [
  { psi: 1, hours: 24, throughput: 3.99e-4 },
  { psi: 0.1, hours: 24, throughput: 3.99e-5 },
  { psi: 1, hours: 1, throughput: 9.58e-3 },
  { psi: 0.1, hours: 1, throughput: 9.58e-4 },
];
test.each(smallest)("$psi psi in $hours h from 5 L is $throughput Pa m3/s (rate of rise)", (row) => {
  within(smallestLeakShownPaM3PerS(toPa(row.psi, "psi"), 0.005, row.hours * 3600), row.throughput, 0.0015);
});
