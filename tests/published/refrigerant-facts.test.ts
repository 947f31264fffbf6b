import { describe, expect, test } from "vitest";
import { findRefrigerant, listRefrigerants, type Refrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import {
  bubblePressurePa,
  bubbleTemperatureK,
  dewPressurePa,
  dewTemperatureK,
  liquidDensityKgPerM3,
  saturationRangeK,
  vapourDensityKgPerM3,
} from "@/lib/hvac/refrigerants/saturation";
import { fromPa, toKelvin } from "@/lib/hvac/units";

/**
 * Safety classes of ASHRAE 34 and ISO 817 and concentration limits of ASHRAE 34 (memory); lower flammable limits each with
 * its mark in the data; largest errors of pressure and density found against the equation of state (computed).
 * Limits nobody read stay null and are not guessed.
 */
const facts = [
  { name: "R-22", safety: "A1", limit: null, gPerM3: 210, ppm: 59_000, gPerMol: 86.468, errors: [0.002, 0.0103] },
  { name: "R-134a", safety: "A1", limit: null, gPerM3: 210, ppm: 50_000, gPerMol: 102.032, errors: [0.00291, 0.00853] },
  { name: "R-404A", safety: "A1", limit: null, gPerM3: 500, ppm: 130_000, gPerMol: 97.6038, errors: [0.0293, 0.124] },
  { name: "R-407C", safety: "A1", limit: null, gPerM3: 290, ppm: 81_000, gPerMol: 86.20364, errors: [0.0633, 0.0577] },
  { name: "R-410A", safety: "A1", limit: null, gPerM3: 420, ppm: 140_000, gPerMol: 72.58541, errors: [0.0249, 0.158] },
  { name: "R-32", safety: "A2L", limit: 0.307, gPerM3: 77, ppm: 36_000, gPerMol: 52.024, errors: [0.00525, 0.105] },
  { name: "R-454B", safety: "A2L", limit: 0.296, gPerM3: null, ppm: null, gPerMol: 62.61363, errors: [0.0629, 0.0856] },
  { name: "R-454C", safety: "A2L", limit: 0.29, gPerM3: null, ppm: null, gPerMol: 90.77572, errors: [0.244, 0.15] },
  { name: "R-448A", safety: "A1", limit: null, gPerM3: null, ppm: null, gPerMol: 86.28345, errors: [0.0757, 0.0456] },
  { name: "R-449A", safety: "A1", limit: null, gPerM3: null, ppm: null, gPerMol: 87.2129, errors: [0.0929, 0.0448] },
  { name: "R-452A", safety: "A1", limit: null, gPerM3: null, ppm: null, gPerMol: 103.5109, errors: [0.333, 0.316] },
  { name: "R-513A", safety: "A1", limit: null, gPerM3: null, ppm: null, gPerMol: 108.4262, errors: [0.0183, 0.00747] },
  {
    name: "R-1234yf",
    safety: "A2L",
    limit: 0.289,
    gPerM3: 75,
    ppm: 16_000,
    gPerMol: 114.0416,
    errors: [0.004, 0.0232],
  },
  { name: "R-290", safety: "A3", limit: 0.038, gPerM3: 9.5, ppm: 5300, gPerMol: 44.09562, errors: [0.0008, 0.00417] },
  { name: "R-600a", safety: "A3", limit: 0.043, gPerM3: 9.6, ppm: 4000, gPerMol: 58.1222, errors: [0.00224, 0.0259] },
  { name: "R-744", safety: "A1", limit: null, gPerM3: 54, ppm: 30_000, gPerMol: 44.0098, errors: [0.000736, 0.0856] },
  { name: "R-717", safety: "B2L", limit: 0.116, gPerM3: 0.22, ppm: 320, gPerMol: 17.03052, errors: [0.00517, 0.0178] },
  { name: "R-507A", safety: "A1", limit: null, gPerM3: 520, ppm: 130_000, gPerMol: 98.85916, errors: [0.0133, 0.139] },
] as const;

/** Nominal compositions by mass, designation list of ASHRAE 34; the molar masses of substances that are no product of their own. */
const blends: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  "R-404A": { "R-125": 44, "R-143a": 52, "R-134a": 4 },
  "R-407C": { "R-32": 23, "R-125": 25, "R-134a": 52 },
  "R-410A": { "R-32": 50, "R-125": 50 },
  "R-454B": { "R-32": 68.9, "R-1234yf": 31.1 },
  "R-454C": { "R-32": 21.5, "R-1234yf": 78.5 },
  "R-448A": { "R-32": 26, "R-125": 26, "R-1234yf": 20, "R-134a": 21, "R-1234ze(E)": 7 },
  "R-449A": { "R-32": 24.3, "R-125": 24.7, "R-1234yf": 25.3, "R-134a": 25.7 },
  "R-452A": { "R-32": 11, "R-125": 59, "R-1234yf": 30 },
  "R-513A": { "R-1234yf": 56, "R-134a": 44 },
  "R-507A": { "R-125": 50, "R-143a": 50 },
};
const others: Readonly<Record<string, number>> = { "R-125": 120.0214, "R-143a": 84.041, "R-1234ze(E)": 114.0416 };

function the(name: string): Refrigerant {
  return findRefrigerant(name)!;
}

describe("what is said of each refrigerant", () => {
  test("the table covers every refrigerant", () => {
    expect(facts.map(({ name }) => name)).toEqual(listRefrigerants().map(({ name }) => name));
  });

  test.each(facts)("$name: class $safety, flammable from $limit kg/m3, $gPerM3 g/m3, $gPerMol g/mol", (row) => {
    const fluid = the(row.name);
    expect(fluid.safetyClass).toBe(row.safety);
    expect(fluid.lowerFlammableLimit?.kgPerM3 ?? null).toBe(row.limit);
    const concentration = fluid.concentrationLimit;
    if (row.gPerM3 === null) expect(concentration).toBeNull();
    else {
      expect(concentration!.kgPerM3 * 1000).toBeCloseTo(row.gPerM3, 9);
      expect(concentration!.ppmByVolume).toBe(row.ppm);
    }
    expect(fluid.molarMassKgPerMol * 1000).toBeCloseTo(row.gPerMol, 9);
    const { pressureErrorPercent, densityErrorPercent } = fluid.saturation;
    expect([pressureErrorPercent, densityErrorPercent]).toEqual(row.errors);
  });

  test.each(Object.entries(blends))("%s is made of %o, and weighs what its parts weigh", (name, percent) => {
    const { massFractions, molarMassKgPerMol } = the(name);
    expect(Object.keys(massFractions)).toEqual(Object.keys(percent));
    let molPerG = 0;
    for (const [part, share] of Object.entries(percent)) {
      expect(massFractions[part]! * 100).toBeCloseTo(share, 9);
      molPerG += share / 100 / (others[part] ?? the(part).molarMassKgPerMol * 1000);
    }
    expect(1 / molPerG / (molarMassKgPerMol * 1000)).toBeCloseTo(1, 5);
  });

  test("everything else is one substance", () => {
    for (const { name, massFractions } of listRefrigerants())
      if (!blends[name]) expect(massFractions).toEqual({ [name]: 1 });
  });
});

/** Where each fit was made (computed); blends boil and condense apart, and boiling takes the higher pressure. */
const ranges = new Map([
  ["R-744", [-56.048, 24.978]],
  ["R-507A", [-60, 64.615]],
]);

describe("the range of each refrigerant", () => {
  test.each(facts)("$name answers to the ends of its range and refuses beyond them", ({ name }) => {
    const fluid = the(name);
    const [fromC, toC] = ranges.get(name) ?? [-60, 65];
    const { fromK, toK } = saturationRangeK(fluid);
    expect([fromK, toK].map((atK) => atK - 273.15)).toEqual([expect.closeTo(fromC!, 9), expect.closeTo(toC!, 9)]);
    for (const ask of [bubblePressurePa, dewPressurePa, liquidDensityKgPerM3, vapourDensityKgPerM3]) {
      for (const inside of [fromK, toK]) expect(ask(fluid, inside).ok).toBe(true);
      for (const outside of [fromK - 0.001, toK + 0.001, Number.NaN])
        expect(ask(fluid, outside)).toMatchObject({ error: { code: "temperature-outside-correlation", fromK, toK } });
    }
    for (const [pressure, temperature] of [
      [bubblePressurePa, bubbleTemperatureK],
      [dewPressurePa, dewTemperatureK],
    ] as const) {
      const [lowest, highest] = [pressure(fluid, fromK), pressure(fluid, toK)];
      if (!lowest.ok || !highest.ok) throw new Error("inside the range");
      for (const outside of [lowest.value * 0.9999, highest.value * 1.0001, 0, -1, Number.NaN])
        expect(temperature(fluid, outside)).toMatchObject({ error: { code: "pressure-outside-correlation" } });
    }
  });

  test.each(facts)("$name boils at no less pressure than it condenses at, and both rise with warmth", ({ name }) => {
    const fluid = the(name);
    const { fromK, toK } = saturationRangeK(fluid);
    let before = 0;
    for (let atK = fromK; atK <= toK; atK += 1) {
      const [bubble, dew] = [bubblePressurePa(fluid, atK), dewPressurePa(fluid, atK)];
      if (!bubble.ok || !dew.ok) throw new Error("inside the range");
      // R-507A is azeotropic: its two fits may cross within their errors.
      expect(bubble.value / dew.value).toBeGreaterThan(1 - fluid.saturation.pressureErrorPercent / 50);
      expect(dew.value).toBeGreaterThan(before);
      before = dew.value;
    }
  });
});

/** Liquid under its own pressure as computed, beside what vendors print with older parameters. */
test.each([
  { name: "R-454B", f: 0, psig: 45.9 },
  { name: "R-454B", f: 40, psig: 113.2 },
  { name: "R-454B", f: 100, psig: 303.3 },
  { name: "R-410A", f: 32, psig: 0.6994e6 / 6894.757293168 },
])("$name at $f F stands at $psig psig (computed)", ({ name, f, psig }) => {
  const pressure = bubblePressurePa(the(name), toKelvin(f, "F"));
  expect(pressure.ok && Math.abs(fromPa(pressure.value - 101_325, "psi") - psig)).toBeLessThan(0.1);
});
