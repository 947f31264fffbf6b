import { describe, expect, test } from "vitest";
import {
  estimateLeakSize,
  fromPaM3PerS,
  massPerYearKg,
  molarLeakOfRise,
  scaleViscousLeak,
  throughputOfRise,
  toPaM3PerS,
} from "@/lib/hvac/leak-size";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { micronToPa, toKg } from "@/lib/hvac/units";

describe("leak rate units", () => {
  /** Read to three digits in a vacuum handbook's conversion table; exact by definition. */
  test.each([
    { value: 1, unit: "Pa m3/s", inMbar: 10, inTorr: 7.50062, inAtm: 9.86923 },
    { value: 1, unit: "atm cm3/s", inMbar: 1.01325, inTorr: 0.76, inAtm: 1 },
    { value: 1, unit: "Torr L/s", inMbar: 1.33322, inTorr: 1, inAtm: 1.31579 },
  ] as const)("$value $unit is $inMbar mbar L/s, $inTorr Torr L/s, $inAtm atm cm3/s", (row) => {
    const throughput = toPaM3PerS(row.value, row.unit);
    expect(fromPaM3PerS(throughput, "mbar L/s")).toBeCloseTo(row.inMbar, 5);
    expect(fromPaM3PerS(throughput, "Torr L/s")).toBeCloseTo(row.inTorr, 5);
    expect(fromPaM3PerS(throughput, "atm cm3/s")).toBeCloseTo(row.inAtm, 5);
  });

  /** Computed: 1 g a year at 20 C, year of 365.25 days. */
  test.each([
    { name: "R-134a", perGram: 7.57e-7 },
    { name: "R-410A", perGram: 1.0641e-6 },
    { name: "R-22", perGram: 8.932e-7 },
    { name: "R-32", perGram: 1.4846e-6 },
    { name: "R-290", perGram: 1.7516e-6 },
  ])("1 g of $name a year is $perGram Pa m3/s", ({ name, perGram }) => {
    expect(massPerYearKg(perGram, findRefrigerant(name)!.molarMassKgPerMol)).toBeCloseTo(0.001, 6);
  });
  test.each([
    { name: "R-134a", perOunce: 2.146e-5 },
    { name: "R-410A", perOunce: 3.017e-5 },
  ])("1 oz of $name a year is $perOunce Pa m3/s", ({ name, perOunce }) => {
    const kg = massPerYearKg(perOunce, findRefrigerant(name)!.molarMassKgPerMol);
    expect(kg / toKg(1, "oz")).toBeCloseTo(1, 3);
  });
  test("5 g of R-134a a year is 3.79e-5 mbar L/s (computed)", () => {
    const kg = massPerYearKg(toPaM3PerS(3.79e-5, "mbar L/s"), findRefrigerant("R-134a")!.molarMassKgPerMol);
    expect(kg / 0.005).toBeCloseTo(1, 2);
  });
  test("1 oz of air a year is 6.96e-4 atm cm3/s (read), reference temperature not printed: 0 C fits", () => {
    const kg = massPerYearKg(toPaM3PerS(6.96e-4, "atm cm3/s"), 0.02897, 273.15);
    expect(kg / toKg(1, "oz")).toBeCloseTo(1, 2);
  });
});

describe("worked examples", () => {
  test("a 4 L tube losing 1 000 hPa in 30 days: 1.5e-4 Pa m3/s (vacuum handbook 7.1.2, read)", () => {
    expect(throughputOfRise(0.004, 1e5 / (30 * 86_400))).toBeCloseTo(1.5432e-4, 8);
  });

  test("10 g of R-134a in ten years: 7.1e-7 Pa m3/s (vacuum handbook 7.1.2, read; exact 7.06e-7 at 0 C)", () => {
    const molarMass = findRefrigerant("R-134a")!.molarMassKgPerMol;
    expect(massPerYearKg(7.06e-7, molarMass, 273.15) / 0.001).toBeCloseTo(1, 2);
    expect(Math.abs(massPerYearKg(7.1e-7, molarMass, 273.15) / 0.001 - 1)).toBeLessThan(0.02);
  });

  test("vacuum-decay leak of 40 CFR 1065.644: 2.966e-4 mol/s (inputs read, result computed)", () => {
    const at = (kPa: number) => ({ pressureAbsPa: kPa * 1000, temperatureK: 293.15 });
    const molPerS = molarLeakOfRise(0.002, at(25.3), at(50.6), 70);
    expect(Math.abs(molPerS / 2.9657047e-4 - 1)).toBeLessThan(2e-6); // the rule's gas constant is the older 8.314472
    expect(molPerS * 8.314462618 * 293.15).toBeCloseTo(0.723, 3);
  });

  test("a viscous leak of 0.001 from 10 to 1 atm is 0.0040 from 20 to 1 atm (leak testing manual, read)", () => {
    const flow = (upstreamAbsPa: number, viscosityPaS = 1) => ({ upstreamAbsPa, downstreamAbsPa: 1, viscosityPaS });
    expect(scaleViscousLeak(0.001, flow(10), flow(20))).toBeCloseTo(0.0040303, 7);
    // Helium to air is printed as a factor of 1.08: 0.0043.
    expect(scaleViscousLeak(0.001, flow(10, 19.6), flow(20, 18.2))).toBeCloseTo(0.0043, 4);
  });

  // The same hole with helium and with others, viscous, as printed; viscosities from memory, good to 3 %.
  test.each([
    { name: "nitrogen", viscosityPaS: 17.6e-6, printed: 1.12 },
    { name: "air", viscosityPaS: 18.2e-6, printed: 1.08 },
    { name: "water vapour", viscosityPaS: 9.7e-6, printed: 2.09 },
    { name: "argon", viscosityPaS: 22.3e-6, printed: 0.883 },
  ])("a viscous leak of helium is $printed times as large as $name (leak testing manual, read)", (row) => {
    const flow = (viscosityPaS: number) => ({ upstreamAbsPa: 2, downstreamAbsPa: 1, viscosityPaS });
    const times = scaleViscousLeak(1, flow(19.6e-6), flow(row.viscosityPaS));
    expect(Math.abs(times / row.printed - 1)).toBeLessThan(0.04);
  });

  /** Computed by the same scaling with viscosities from memory, good to 3 %. */
  test.each([
    { name: "R-410A", operatingMPa: 1, gramPerYear: 124 },
    { name: "R-134a", operatingMPa: 0.57, gramPerYear: 62 },
  ])("1e-6 Pa m3/s of air into vacuum is $gramPerYear g of $name a year", ({ name, operatingMPa, gramPerYear }) => {
    const { lostPerYearKg } = estimateLeakSize({
      risePaPerS: 1e-6 / 0.005,
      internalVolumeM3: 0.005,
      refrigerant: findRefrigerant(name)!,
      operatingPressureAbsPa: operatingMPa * 1e6,
    });
    expect(Math.abs(lostPerYearKg * 1000 - gramPerYear)).toBeLessThan(0.6);
  });

  test.each([
    { name: "R-410A", viscosityPaS: 13.3e-6, operatingPa: 1e6, outward: 1.32e-4 },
    { name: "R-134a", viscosityPaS: 11.8e-6, operatingPa: 0.57e6, outward: 4.7e-5 },
  ])("the same hole lets $outward Pa m3/s of $name out (computed)", ({ viscosityPaS, operatingPa, outward }) => {
    const inward = { upstreamAbsPa: 101_325, downstreamAbsPa: 0, viscosityPaS: 18.2e-6 };
    const out = { upstreamAbsPa: operatingPa, downstreamAbsPa: 101_325, viscosityPaS };
    expect(Math.abs(scaleViscousLeak(1e-6, inward, out) / outward - 1)).toBeLessThan(0.006);
  });

  test("10 g of R-134a are about 224 Pa m3 (vacuum handbook, read; exact 222.6 at 0 C)", () => {
    const perYear = massPerYearKg(1, findRefrigerant("R-134a")!.molarMassKgPerMol, 273.15);
    const heldPaM3 = (0.01 / perYear) * 365.25 * 86_400;
    expect(heldPaM3).toBeCloseTo(222.6, 1);
    expect(Math.abs(heldPaM3 / 224 - 1)).toBeLessThan(0.01);
  });

  test("1 L/s at 5 000 micron of water carries 4.93e-6 kg/s: a gram in 203 s, at 500 micron ten times as long (computed)", () => {
    const kgPerS = (micron: number) => massPerYearKg(0.001 * micronToPa(micron), 0.018015, 293.15) / (365.25 * 86_400);
    expect(kgPerS(5000)).toBeCloseTo(4.93e-6, 8);
    expect(Math.abs(0.001 / kgPerS(5000) - 203)).toBeLessThan(0.5);
    expect(kgPerS(5000) / kgPerS(500)).toBeCloseTo(10, 9);
  });

  test("1e-6 Pa m3/s raises 5 L by 0.72 Pa, 5.4 micron, an hour (computed)", () => {
    expect(throughputOfRise(0.005, 0.72 / 3600)).toBeCloseTo(1e-6, 12);
    expect(micronToPa(5.4)).toBeCloseTo(0.72, 2);
  });

  test("5 micron/min in 12.4 L: 1.4e-4 Pa m3/s, of the order of 17 kg of R-410A a year at 1 MPa (computed)", () => {
    const size = estimateLeakSize({
      risePaPerS: micronToPa(5) / 60,
      internalVolumeM3: 0.0124,
      refrigerant: findRefrigerant("R-410A")!,
      operatingPressureAbsPa: 1e6,
    });
    expect(size.throughputPaM3PerS).toBeCloseTo(1.4e-4, 5);
    expect(Math.abs(size.lostPerYearKg - 17)).toBeLessThan(0.5);
  });
});
