import { expect, test } from "vitest";
import { massPerYearKg } from "@/lib/hvac/leak-size";
import { nitrogenDensityMolPerM3, nitrogenPressureAbsPa, nitrogenPressureAtTemperaturePa } from "@/lib/hvac/nitrogen";
import {
  expectedGaugePa,
  shortestUsefulHoldS,
  smallestLeakShownPaM3PerS,
  smallestPressureChangePa,
} from "@/lib/hvac/pressure-test/plan-pressure-test";
import { fromPa, toKelvin, toKelvinDifference, toPa } from "@/lib/hvac/units";

const atmosphericPa = toPa(14.695949, "psi");

// Nitrogen shut in at constant volume, computed with the equation of Span et al. by independent code, beside the ideal gas.
const shutIn = [
  { psig: 150, fromF: 75, toF: 55, idealPsig: 143.84, realPsig: 143.67, apartPsi: -0.17 },
  { psig: 300, fromF: 75, toF: 55, idealPsig: 288.23, realPsig: 287.62, apartPsi: -0.6 },
  { psig: 500, fromF: 75, toF: 55, idealPsig: 480.75, realPsig: 479.14, apartPsi: -1.61 },
  { psig: 550, fromF: 80, toF: 60, idealPsig: 529.07, realPsig: 527.2, apartPsi: -1.87 },
  { psig: 600, fromF: 70, toF: 90, idealPsig: 623.21, realPsig: 625.54, apartPsi: 2.33 },
];

test.each(shutIn)("$psig psig of nitrogen from $fromF F to $toF F reads $realPsig psig (Span et al. 2000)", (row) => {
  const startPa = toPa(row.psig, "psi") + atmosphericPa;
  const endPa = nitrogenPressureAtTemperaturePa(startPa, toKelvin(row.fromF, "F"), toKelvin(row.toF, "F"));
  expect(Math.abs((endPa - atmosphericPa) / toPa(row.realPsig, "psi") - 1)).toBeLessThanOrEqual(3e-5);
  const start = { gaugePa: toPa(row.psig, "psi"), temperatureK: toKelvin(row.fromF, "F") };
  expect(expectedGaugePa(start, atmosphericPa, toKelvin(row.toF, "F"))).toBeCloseTo(endPa - atmosphericPa, 3);
});

test.each(shutIn)(
  "$psig psig from $fromF F to $toF F: $idealPsig psig as an ideal gas, the real one $apartPsi psi beside it",
  (row) => {
    const ratio = toKelvin(row.toF, "F") / toKelvin(row.fromF, "F");
    const idealPa = (toPa(row.psig, "psi") + atmosphericPa) * ratio - atmosphericPa;
    expect(Math.abs(fromPa(idealPa, "psi") - row.idealPsig)).toBeLessThanOrEqual(0.0051);
    const start = { gaugePa: toPa(row.psig, "psi"), temperatureK: toKelvin(row.fromF, "F") };
    const realPa = expectedGaugePa(start, atmosphericPa, toKelvin(row.toF, "F"));
    expect(Math.abs(fromPa(realPa - idealPa, "psi") - row.apartPsi)).toBeLessThanOrEqual(0.011);
  },
);

test("1 psi of 5 L in a day is about 145 g of nitrogen a year (computed); the hold for a leak turns the same form round", () => {
  const onePsi = toPa(1, "psi");
  const throughput = smallestLeakShownPaM3PerS(onePsi, 0.005, 86_400);
  expect(Math.abs(massPerYearKg(throughput, 0.0280134) * 1000 - 145)).toBeLessThan(1);
  expect(shortestUsefulHoldS(onePsi, throughput / 0.005)).toBeCloseTo(86_400, 6);
});

test("resolution, thermometer and barometer add up by their squares (computed: 1 psi, 1 F at 500 psig, 10 mbar of 0.145 psi)", () => {
  const gaugePa = toPa(500, "psi");
  const temperatureK = toKelvin(75, "F");
  const alone = (instruments: Partial<Parameters<typeof smallestPressureChangePa>[3]>) =>
    smallestPressureChangePa(gaugePa, atmosphericPa, temperatureK, {
      resolutionPa: 0,
      temperatureAccuracyK: 0,
      ...instruments,
    });
  const [step, warmth, weather] = [
    alone({ resolutionPa: toPa(1, "psi") }),
    alone({ temperatureAccuracyK: toKelvinDifference(1, "F") }),
    alone({ barometerPa: toPa(10, "mbar") }),
  ];
  expect(fromPa(weather, "psi")).toBeCloseTo(0.145, 3);
  expect(Math.abs(fromPa(warmth, "psi") / 0.96 - 1)).toBeLessThan(0.12); // the ideal gas gives 0.96
  const together = alone({
    resolutionPa: toPa(1, "psi"),
    temperatureAccuracyK: toKelvinDifference(1, "F"),
    barometerPa: toPa(10, "mbar"),
  });
  expect(together).toBeCloseTo(Math.sqrt(step ** 2 + warmth ** 2 + weather ** 2), 6);
});

test("at 500 psig a thermometer wrong by 1 F is wrong by 0.96 psi (computed, ideal gas: real nitrogen a tenth more)", () => {
  const reading = { gaugePa: toPa(500, "psi"), temperatureK: toKelvin(75, "F") };
  const perF = expectedGaugePa(reading, atmosphericPa, toKelvin(76, "F")) - reading.gaugePa;
  const ideal = (reading.gaugePa + atmosphericPa) / reading.temperatureK / 1.8;
  expect(ideal / toPa(1, "psi")).toBeCloseTo(0.96, 2);
  expect(perF / ideal).toBeGreaterThan(1.05);
  expect(perF / ideal).toBeLessThan(1.12);
});

test("dilute nitrogen has the second virial coefficient of print: -4.5 cm3/mol at 300 K (Dymond and Smith 1980, from memory)", () => {
  const density = 10;
  const compressibility = nitrogenPressureAbsPa(density, 300) / (density * 8.31451 * 300);
  expect(((compressibility - 1) / density) * 1e6).toBeGreaterThan(-5);
  expect(((compressibility - 1) / density) * 1e6).toBeLessThan(-4);
});

test("density and pressure undo each other", () => {
  for (const temperatureK of [230, 270, 300, 330])
    for (const pressurePa of [1e5, 1e6, 5e6, 1e7]) {
      const density = nitrogenDensityMolPerM3(pressurePa, temperatureK);
      expect(nitrogenPressureAbsPa(density, temperatureK) / pressurePa).toBeCloseTo(1, 10);
    }
});
