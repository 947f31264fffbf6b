import { describe, expect, test } from "vitest";
import {
  fromMbarLitrePerS,
  massFlowKgPerS,
  molarInflowPerS,
  riseOfThroughput,
  throughputOfRise,
  throughputOfYearlyLoss,
  toMbarLitrePerS,
  toPaLitrePerS,
  viscousRatio,
  yearlyLossKg,
} from "@/lib/hvac/leak-units";

function relative(actual: number, expected: number): number {
  return Math.abs(actual / expected - 1);
}

describe("published leak-rate figures", () => {
  test("1 Pa m3/s is 10 mbar L/s and 1000 Pa L/s (vacuum handbook unit table)", () => {
    expect(toMbarLitrePerS(1)).toBeCloseTo(10, 12);
    expect(fromMbarLitrePerS(10)).toBeCloseTo(1, 12);
    expect(toPaLitrePerS(1)).toBe(1000);
  });

  test.each([
    { gas: "R-134a", molarMassKgPerMol: 0.102032, throughput: 7.57e-7 },
    { gas: "R-410A", molarMassKgPerMol: 0.0725854, throughput: 1.0641e-6 },
    { gas: "R-22", molarMassKgPerMol: 0.086468, throughput: 8.932e-7 },
    { gas: "R-32", molarMassKgPerMol: 0.052024, throughput: 1.4846e-6 },
    { gas: "R-290", molarMassKgPerMol: 0.04409562, throughput: 1.7516e-6 },
  ])("1 g a year of $gas is $throughput Pa m3/s at 20 C (ideal gas, year of 365.25 d)", (row) => {
    expect(relative(throughputOfYearlyLoss(1e-3, row.molarMassKgPerMol), row.throughput)).toBeLessThan(2e-4);
  });

  test("10 g of R-134a in 10 years is 7.06e-7 Pa m3/s at 0 C (vacuum handbook 7.1.2 prints 7.1e-7)", () => {
    expect(relative(throughputOfYearlyLoss(1e-3, 0.102032, 273.15), 7.06e-7)).toBeLessThan(0.01);
  });

  test("a 4 L tube losing 1000 hPa in 30 days leaks 1.543e-4 Pa m3/s (vacuum handbook 7.1.2)", () => {
    const micronPerMin = 100_000 / (101_325 / 760_000) / (30 * 24 * 60);
    const throughput = throughputOfRise(micronPerMin, 0.004);
    expect(throughput.ok && relative(throughput.value, 1.543e-4)).toBeLessThan(1e-3);
  });

  test("0.001 at 10 to 1 atm becomes 0.00403 at 20 to 1 atm (leak testing manual prints 0.004)", () => {
    const from = { insidePa: 10, outsidePa: 1, viscosityPaS: 1 };
    const ratio = viscousRatio(from, { ...from, insidePa: 20 });
    expect(relative(0.001 * ratio, 0.0040303)).toBeLessThan(1e-4);
  });

  test("the vacuum-decay example gives 2.966e-4 mol/s (40 CFR 1065.644, inputs as printed)", () => {
    const first = { pressureAbsPa: 25_300, temperatureK: 293.15 };
    const inflow = molarInflowPerS(0.002, first, { pressureAbsPa: 50_600, temperatureK: 293.15 }, 70);
    expect(relative(inflow, 2.9657047e-4)).toBeLessThan(2e-6);
  });

  test.each([
    { refrigerant: "R-410A", pressureAbsPa: 1e6, gramsPerYear: 124 },
    { refrigerant: "R-134a", pressureAbsPa: 0.57e6, gramsPerYear: 62 },
  ])("1e-6 Pa m3/s of air into vacuum is about $gramsPerYear g a year of $refrigerant (viscous scaling)", (row) => {
    const loss = yearlyLossKg(1e-6, row.refrigerant, row.pressureAbsPa);
    expect(loss.ok && relative(loss.value * 1000, row.gramsPerYear)).toBeLessThan(0.01);
  });

  test("1e-6 Pa m3/s raises 5 L by 5.4 micron in an hour (Q = V dp/dt)", () => {
    const rise = riseOfThroughput(1e-6, 0.005);
    expect(rise.ok && rise.value * 60).toBeCloseTo(5.4, 1);
  });

  test("5 micron/min in 12.4 L is of the order of 17 kg of R-410A a year at 1 MPa", () => {
    const throughput = throughputOfRise(5, 0.0124);
    const loss = throughput.ok ? yearlyLossKg(throughput.value, "R-410A", 1e6) : throughput;
    expect(loss.ok && loss.value).toBeGreaterThan(16);
    expect(loss.ok && loss.value).toBeLessThan(18);
  });

  test("what makes no sense is refused with its number", () => {
    expect(throughputOfRise(5, 0)).toEqual({ ok: false, error: { code: "volume-not-positive", internalVolumeM3: 0 } });
    expect(yearlyLossKg(1e-6, "R-0", 1e6).ok).toBe(false);
    expect(yearlyLossKg(1e-6, "R-134a", 5e4).ok).toBe(false);
    expect(massFlowKgPerS(0, 0.1)).toBe(0);
  });
});
