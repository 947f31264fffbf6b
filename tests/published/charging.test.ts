import { describe, expect, test } from "vitest";
import { judgeChargeCheck } from "@/lib/hvac/charge/charge-check";
import { leastRoomAreaM2, roomChargeLimits } from "@/lib/hvac/charge/flammable-charge";
import { liquidFullLineKgPerM, planCharge } from "@/lib/hvac/charge/line-set";
import { ruleOfThumbSuperheatK, targetSuperheatK } from "@/lib/hvac/charge/target-superheat";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { CHARGE_CHECK, CHARGE_SCALE_ACCURACY_KG, FIXED_ORIFICE_TARGET } from "@/lib/hvac/rules/charging";
import { RELEASE_HEIGHT_M } from "@/lib/hvac/rules/flammable-charge";
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

/** Two makers' R-410A instructions in oz per ft of liquid line (read), with the rounded g/m the first of them prints. */
test.each([
  { outerDiameterIn: 1 / 4, ozPerFt: 0.3, other: 0.27, gPerM: 28 },
  { outerDiameterIn: 5 / 16, ozPerFt: 0.4, other: 0.4, gPerM: 38 },
  { outerDiameterIn: 3 / 8, ozPerFt: 0.6, other: 0.6, gPerM: 57 },
  { outerDiameterIn: 1 / 2, ozPerFt: 1.2, other: null, gPerM: 113 },
])("liquid line of $outerDiameterIn in: $ozPerFt oz/ft, printed as $gPerM g/m; another maker $other oz/ft", (row) => {
  const rate = LINE_RATES_R410A.find(({ outerDiameterIn }) => outerDiameterIn === row.outerDiameterIn)!;
  expect(rate.kgPerM / ozPerFt(row.ozPerFt)).toBeCloseTo(1, 12);
  if (row.other === null) expect(rate.otherMakerKgPerM).toBeNull();
  else expect(rate.otherMakerKgPerM! / ozPerFt(row.other)).toBeCloseTo(1, 12);
  expect(Math.abs(rate.kgPerM * 1000 - row.gPerM)).toBeLessThan(2);
});

test("a field drier takes 6 oz, ductless R-32 lines 12, 24 and 40 g/m (makers' instructions, read)", () => {
  expect(fromKg(FIELD_DRIER_KG, "oz")).toBeCloseTo(6, 12);
  expect(LINE_RATES_R32_DUCTLESS.map(({ kgPerM }) => kgPerM * 1000)).toEqual([12, 24, 40]);
});

/** Computed: R-410A liquid at 40 C, 975 kg/m3, in tube of this inner diameter. */
test.each([
  { innerIn: 0.311, gPerM: 47.8, ounces: 0.514 },
  { innerIn: 0.19, gPerM: 17.8, ounces: 0.192 },
  { innerIn: 0.436, gPerM: 93.9, ounces: 1.01 },
])("a line of $innerIn in full of liquid holds $gPerM g/m, $ounces oz/ft", ({ innerIn, gPerM, ounces }) => {
  const full = liquidFullLineKgPerM(findRefrigerant("R-410A")!, toMetre(innerIn, "in"), 313.15);
  if (!full.ok) throw new Error("inside the range");
  expect(Math.abs(full.value * 1000 - gPerM)).toBeLessThan(0.15);
  expect(Math.abs(full.value / ozPerFt(ounces) - 1)).toBeLessThan(0.004);
});

test("a scale weighs to an ounce or better (makers' instructions, read)", () => {
  expect(fromKg(CHARGE_SCALE_ACCURACY_KG, "oz")).toBeCloseTo(1, 12);
});

describe("fixed-orifice target superheat, split-system service instructions", () => {
  /** Target superheat in F as printed (read): a row for each outdoor dry bulb, indoor wet bulbs from 50 to 76 F by 2; a dash is blank. */
  const printed: Readonly<Record<number, string>> = {
    40: "15 18 20 23 26 29 32 34 38 41 43 46 48 51",
    45: "13 16 18 21 24 27 30 33 36 39 41 44 46 49",
    50: "11 14 16 19 22 25 28 31 34 37 39 42 44 47",
    55: "9 12 14 17 20 23 27 30 33 36 38 40 42 44",
    60: "7 10 12 15 18 21 24 27 30 33 35 38 40 43",
    65: "- 6 10 13 16 19 21 24 27 30 33 36 38 41",
    70: "- - 7 10 13 16 19 21 24 27 30 33 36 39",
    75: "- - - 6 9 12 15 18 21 24 28 31 34 37",
    80: "- - - - 5 8 12 15 18 21 25 28 31 35",
    85: "- - - - - - 8 11 15 19 22 26 30 33",
    90: "- - - - - - 5 9 13 16 20 24 27 31",
    95: "- - - - - - - 6 10 14 18 22 25 29",
    100: "- - - - - - - - 8 12 16 21 24 28",
    105: "- - - - - - - - 5 9 13 17 22 26",
    110: "- - - - - - - - - 6 11 15 20 25",
    115: "- - - - - - - - - - 8 14 18 24",
  };
  const cells = Object.entries(printed).flatMap(([dryBulbF, row]) =>
    row.split(" ").map((cell, column) => ({
      dryBulbF: Number(dryBulbF),
      wetBulbF: 50 + 2 * column,
      targetF: cell === "-" ? null : Number(cell),
    })),
  );
  test("every printed cell is read back, a blank one is refused, and there is no other", () => {
    expect(cells).toHaveLength(16 * 14);
    expect(FIXED_ORIFICE_TARGET.rowsByOutdoorDryBulbF.flatMap(([, row]) => row)).toHaveLength(16 * 14);
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

  test("the rule of thumb is off the table by 1.2 F on average (computed)", () => {
    const off = cells
      .filter(({ targetF }) => targetF !== null)
      .map(({ dryBulbF, wetBulbF, targetF }) => Math.abs((3 * wetBulbF - 80 - dryBulbF) / 2 - targetF!));
    expect(off.reduce((sum, each) => sum + each, 0) / off.length).toBeCloseTo(1.2, 1);
  });

  test("between printed cells the target lies on the line between them, outside it is refused", () => {
    const between = targetSuperheatK(toKelvin(67, "F"), toKelvin(92.5, "F"));
    expect(between.ok && fromKelvinDifference(between.value, "F")).toBeCloseTo((13 + 16 + 10 + 14) / 4, 9);
    for (const [wetBulbF, dryBulbF] of [
      [49.9, 80],
      [76.1, 80],
      [66, 39.9],
      [66, 115.1],
    ] as const)
      expect(targetSuperheatK(toKelvin(wetBulbF, "F"), toKelvin(dryBulbF, "F"))).toMatchObject({
        error: { code: "outside-table" },
      });
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

/** California RA3.2.2 (read): what a superheat check asks for before it says anything; the rater's own tolerance. */
test.each([
  { outdoorF: 55, ranMinutes: 15, targetF: 5, verdict: "on-target" },
  { outdoorF: 54.9, ranMinutes: 15, targetF: 5, verdict: "unproven" },
  { outdoorF: 55, ranMinutes: 14.9, targetF: 5, verdict: "unproven" },
  { outdoorF: 55, ranMinutes: 15, targetF: 4.9, verdict: "unproven" },
] as const)("$outdoorF F outdoors, $ranMinutes minutes, target $targetF F: $verdict", (row) => {
  const targetK = toKelvinDifference(row.targetF, "F");
  const check = {
    method: "superheat",
    targetK,
    outdoorDryBulbK: toKelvin(row.outdoorF, "F"),
    runningS: row.ranMinutes * 60,
  } as const;
  expect(judgeChargeCheck({ ...check, measuredK: targetK }).verdict).toBe(row.verdict);
});
test("a rater allows 6 F where the installer has 5", () => {
  expect(fromKelvinDifference(CHARGE_CHECK.raterSuperheatToleranceK, "F")).toBeCloseTo(6, 12);
  expect(fromKelvinDifference(CHARGE_CHECK.superheatToleranceK, "F")).toBeCloseTo(5, 12);
});

describe("flammable charge limits, IEC 60335-2-40", () => {
  /** m1, m2 and m3 as cubic metres times the lower flammable limit, and the heights of release (read in a unit's manual; 6 computed, 52 secondary). */
  test.each([
    { edition: "iec-60335-2-40-older", mildly: false, m1: 4, m2: 26, m3: 130 },
    { edition: "iec-60335-2-40-older", mildly: true, m1: 4, m2: 26, m3: 130 },
    { edition: "iec-60335-2-40-2018", mildly: false, m1: 4, m2: 26, m3: 130 },
    { edition: "iec-60335-2-40-2018", mildly: true, m1: 6, m2: 26, m3: 130 },
    { edition: "ul-60335-2-40-4th", mildly: true, m1: 6, m2: 52, m3: null },
  ] as const)("$edition, mildly flammable $mildly: $m1, $m2 and $m3 m3 times the limit", (row) => {
    const lowerFlammableLimitKgPerM3 = 0.3;
    const limits = roomChargeLimits({
      lowerFlammableLimitKgPerM3,
      mildlyFlammable: row.mildly,
      releaseHeightM: 1,
      roomAreaM2: 20,
      edition: row.edition,
    });
    expect(limits.unrestrictedKg / lowerFlammableLimitKgPerM3).toBeCloseTo(row.m1, 9);
    expect(limits.formulaEndsKg / lowerFlammableLimitKgPerM3).toBeCloseTo(row.m2, 9);
    if (row.m3 === null) expect(limits.neverAboveKg).toBeNull();
    else expect(limits.neverAboveKg! / lowerFlammableLimitKgPerM3).toBeCloseTo(row.m3, 9);
  });

  test("released 0.6 m up at the floor, 1.0 at a window, 1.8 on a wall, 2.2 under the ceiling; never lower than 0.6", () => {
    expect(RELEASE_HEIGHT_M).toEqual({ floor: 0.6, window: 1, wall: 1.8, ceiling: 2.2 });
    const at = (releaseHeightM: number) =>
      roomChargeLimits({
        lowerFlammableLimitKgPerM3: 0.306,
        mildlyFlammable: true,
        releaseHeightM,
        roomAreaM2: 10,
        edition: "iec-60335-2-40-older",
      }).roomKg;
    expect(at(0.2)).toBe(at(0.6));
  });

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
