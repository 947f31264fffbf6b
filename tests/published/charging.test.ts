import { describe, expect, test } from "vitest";
import { judgeChargeCheck } from "@/lib/hvac/charge/charge-check";
import { leastRoomAreaM2, roomChargeLimits } from "@/lib/hvac/charge/flammable-charge";
import { liquidFullLineKgPerM, planCharge } from "@/lib/hvac/charge/line-set";
import { ruleOfThumbSuperheatK, targetSuperheatK } from "@/lib/hvac/charge/target-superheat";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { FIXED_ORIFICE_TARGET } from "@/lib/hvac/rules/charging";
import { FIELD_DRIER_KG, LINE_RATES_R32_DUCTLESS, LINE_RATES_R410A } from "@/lib/hvac/rules/line-rates";
import { fromKelvinDifference, fromKg, toKelvin, toKelvinDifference, toKg, toMetre } from "@/lib/hvac/units";

const ozPerFt = (rate: number) => toKg(rate, "oz") / toMetre(1, "ft");

/** Worked answers printed in makers' installation instructions. */
const lineSets = [
  { ozPerFt: 1.2, feet: 75, included: { massKg: toKg(15 * 0.6, "oz") }, addOz: 81, source: "75 ft of 1/2 in" },
  { ozPerFt: 0.27, feet: 25, included: { massKg: toKg(13.5, "oz") }, addOz: -6.75, source: "25 ft of 1/4 in" },
  { ozPerFt: 0.4, feet: 45, included: { massKg: toKg(13.5, "oz") }, addOz: 4.5, source: "45 ft of 5/16 in" },
  { ozPerFt: 0.16, feet: 60, included: { lengthM: toMetre(40, "ft") }, addOz: 3.2, source: "precharged to 40 ft" },
  { ozPerFt: 0.1, feet: 25, included: { lengthM: toMetre(25, "ft") }, addOz: 0, source: "factory charge to 25 ft" },
];

test.each(lineSets)("$source: $addOz oz", (row) => {
  const lineSet = {
    rateKgPerM: ozPerFt(row.ozPerFt),
    lengthM: toMetre(row.feet, "ft"),
    included: row.included,
    addersKg: [],
  };
  const plan = planCharge(toKg(120, "oz"), lineSet);
  if (!plan.ok) throw new Error(plan.error.code);
  expect(fromKg(plan.value.adjustmentKg, "oz")).toBeCloseTo(row.addOz, 9);
  expect(fromKg(plan.value.totalKg, "oz")).toBeCloseTo(120 + row.addOz, 9);
});

/** Makers' R-410A instructions, set A, with the rounded g/m they print. */
test.each([
  { outerDiameterIn: 1 / 4, gPerM: 28 },
  { outerDiameterIn: 5 / 16, gPerM: 38 },
  { outerDiameterIn: 3 / 8, gPerM: 57 },
  { outerDiameterIn: 1 / 2, gPerM: 113 },
])("liquid line of $outerDiameterIn in is printed as $gPerM g/m", ({ outerDiameterIn, gPerM }) => {
  const rate = LINE_RATES_R410A.find((row) => row.outerDiameterIn === outerDiameterIn)!;
  expect(Math.abs(rate.kgPerM * 1000 - gPerM)).toBeLessThan(2);
});

test("a field drier takes 6 oz, ductless R-32 lines 12, 24 and 40 g/m (makers' instructions, read)", () => {
  expect(fromKg(FIELD_DRIER_KG, "oz")).toBeCloseTo(6, 12);
  expect(LINE_RATES_R32_DUCTLESS.map(({ kgPerM }) => kgPerM * 1000)).toEqual([12, 24, 40]);
});

/** Computed: R-410A liquid at 40 C, 975 kg/m3, in tube of this inner diameter. */
test.each([
  { innerIn: 0.311, gPerM: 47.8 },
  { innerIn: 0.19, gPerM: 17.8 },
  { innerIn: 0.436, gPerM: 93.9 },
])("a line of $innerIn in full of liquid holds $gPerM g/m", ({ innerIn, gPerM }) => {
  const full = liquidFullLineKgPerM(findRefrigerant("R-410A")!, toMetre(innerIn, "in"), 313.15);
  if (!full.ok) throw new Error("inside the range");
  expect(Math.abs(full.value * 1000 - gPerM)).toBeLessThan(0.15);
});

describe("fixed-orifice target superheat, split-system service instructions", () => {
  const { indoorWetBulbF, rowsByOutdoorDryBulbF } = FIXED_ORIFICE_TARGET;
  const cells = rowsByOutdoorDryBulbF.flatMap(([dryBulbF, row]) =>
    row.map((targetF, column) => ({ dryBulbF, wetBulbF: indoorWetBulbF[column]!, targetF })),
  );
  test("every cell of the table is read back, a blank one is refused", () => {
    expect(cells).toHaveLength(16 * 14);
    for (const { dryBulbF, wetBulbF, targetF } of cells) {
      const target = targetSuperheatK(toKelvin(wetBulbF, "F"), toKelvin(dryBulbF, "F"));
      if (targetF === null) expect(target).toMatchObject({ error: { code: "do-not-charge-by-superheat" } });
      else expect(target.ok && fromKelvinDifference(target.value, "F")).toBeCloseTo(targetF, 9);
    }
  });

  test.each([
    { dryBulbF: 95, wetBulbF: 66, targetF: 10 },
    { dryBulbF: 95, wetBulbF: 70, targetF: 18 },
    { dryBulbF: 80, wetBulbF: 62, targetF: 12 },
    { dryBulbF: 75, wetBulbF: 64, targetF: 18 },
    { dryBulbF: 100, wetBulbF: 68, targetF: 12 },
  ])("$dryBulbF F outdoors, $wetBulbF F wet bulb: $targetF F", ({ dryBulbF, wetBulbF, targetF }) => {
    const target = targetSuperheatK(toKelvin(wetBulbF, "F"), toKelvin(dryBulbF, "F"));
    expect(target.ok && fromKelvinDifference(target.value, "F")).toBeCloseTo(targetF, 9);
  });

  /** Common practice, as a trade forum states it. */
  test.each([
    [67, 95, 13],
    [63, 85, 12],
    [71, 105, 14],
    [60, 80, 10],
  ])("rule of thumb at wet bulb %d and dry bulb %d: %d F", (wetBulbF, dryBulbF, targetF) => {
    const targetK = ruleOfThumbSuperheatK(toKelvin(wetBulbF, "F"), toKelvin(dryBulbF, "F"));
    expect(fromKelvinDifference(targetK, "F")).toBeCloseTo(targetF, 9);
  });

  test("the rule of thumb is off the table by up to 4.5 F from 65 to 105 F and 7.5 F at 115 (computed)", () => {
    const off = (fromF: number, toF: number) =>
      Math.max(
        ...cells
          .filter(({ dryBulbF, targetF }) => targetF !== null && dryBulbF >= fromF && dryBulbF <= toF)
          .map(({ dryBulbF, wetBulbF, targetF }) => Math.abs((3 * wetBulbF - 80 - dryBulbF) / 2 - targetF!)),
      );
    expect(off(65, 105)).toBeCloseTo(4.5, 9);
    expect(off(115, 115)).toBeCloseTo(7.5, 9);
  });
});

/** California RA3.2.2 (read) for superheat; subcooling from memory of the same and ANSI/ACCA 5. */
test.each([
  { method: "superheat", offF: 5, verdict: "on-target" },
  { method: "superheat", offF: 5.1, verdict: "off-target" },
  { method: "superheat", offF: -5, verdict: "on-target" },
  { method: "subcooling", offF: 3, verdict: "on-target" },
  { method: "subcooling", offF: -3.1, verdict: "off-target" },
] as const)("$method $offF F from target is $verdict", ({ method, offF, verdict }) => {
  const judged = judgeChargeCheck({
    method,
    measuredK: toKelvinDifference(12 + offF, "F"),
    targetK: toKelvinDifference(12, "F"),
    outdoorDryBulbK: toKelvin(80, "F"),
    runningS: 900,
  });
  expect(judged.verdict).toBe(verdict);
});

describe("flammable charge limits, IEC 60335-2-40", () => {
  /** Table GG.1 as a unit's manual prints it (read); within half a unit of the last printed digit or 0.5 %. */
  const roomTable = [
    ...[0.68, 1.08, 2.41].map((kg, i) => ({ limit: 0.306, heightM: 0.6, areaM2: [4, 10, 50][i]!, kg })),
    ...[1.14, 1.8, 4.02].map((kg, i) => ({ limit: 0.306, heightM: 1, areaM2: [4, 10, 50][i]!, kg })),
    ...[2.05, 3.24, 7.25].map((kg, i) => ({ limit: 0.306, heightM: 1.8, areaM2: [4, 10, 50][i]!, kg })),
    ...[2.5, 3.96, 8.85].map((kg, i) => ({ limit: 0.306, heightM: 2.2, areaM2: [4, 10, 50][i]!, kg })),
    ...[0.05, 0.08, 0.15, 0.18].map((kg, i) => ({ limit: 0.038, heightM: [0.6, 1, 1.8, 2.2][i]!, areaM2: 4, kg })),
  ];
  test.each(roomTable)("LFL $limit, $heightM m, $areaM2 m2: $kg kg", ({ limit, heightM, areaM2, kg }) => {
    const { roomKg } = roomChargeLimits({
      lowerFlammableLimitKgPerM3: limit,
      mildlyFlammable: limit > 0.1,
      releaseHeightM: heightM,
      roomAreaM2: areaM2,
      edition: "iec-60335-2-40-older",
    });
    expect(Math.abs(roomKg - kg)).toBeLessThanOrEqual(Math.max(0.005, 0.005 * kg));
  });

  const floor = {
    lowerFlammableLimitKgPerM3: 0.307,
    mildlyFlammable: true,
    releaseHeightM: 0.6,
    edition: "iec-60335-2-40-2018",
  } as const;
  /** Table of a unit's manual (read), matched by the lower of both formulae. */
  test.each([
    [1, 0.138],
    [6, 0.829],
    [7, 0.907],
    [10, 1.084],
    [45, 2.299],
  ])("2018 edition, %d m2 at the floor: %d kg", (roomAreaM2, kg) => {
    expect(Math.abs(roomChargeLimits({ ...floor, roomAreaM2 }).roomKg - kg)).toBeLessThan(0.0006);
  });
  test.each([
    [1.84, 28.81],
    [2, 34.04],
    [2.3, 45.02],
  ])("2018 edition, %d kg at the floor need %d m2", (kg, areaM2) => {
    expect(Math.abs(leastRoomAreaM2(kg, floor) - areaM2)).toBeLessThan(0.01);
  });

  test("R-32 needs no room up to 1.84 kg in the 2018 edition (read in a manual)", () => {
    expect(roomChargeLimits({ ...floor, roomAreaM2: 10 }).unrestrictedKg).toBeCloseTo(1.84, 2);
  });

  test("UL 4th edition: R-32 4.05 lb unrestricted, formula to 35.1 lb (read in a secondary page)", () => {
    const limits = roomChargeLimits({
      ...floor,
      lowerFlammableLimitKgPerM3: 0.306,
      edition: "ul-60335-2-40-4th",
      roomAreaM2: 10,
    });
    expect(fromKg(limits.unrestrictedKg, "lb")).toBeCloseTo(4.05, 2);
    expect(fromKg(limits.formulaEndsKg, "lb")).toBeCloseTo(35.1, 1);
  });
});
