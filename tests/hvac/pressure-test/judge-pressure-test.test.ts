import fc from "fast-check";
import { expect, test } from "vitest";
import { judgePressureTest } from "@/lib/hvac/pressure-test/judge-pressure-test";
import { normalBelow } from "@/lib/hvac/pressure-test/normal-mixture";
import type { PressureTestRecord } from "@/lib/hvac/pressure-test/record";
import { pressureTestErrorRates } from "./error-rates";
import { testOfKind } from "./kinds-of-test";
import { simulatePressureTest } from "./simulated-test";

const PA_PER_K = 3.1e6 / 293.15;

function testRecord(pressureAt: (s: number) => number, temperatureAt: (s: number) => number): PressureTestRecord {
  return {
    internalVolumeM3: 0.01,
    atmosphericPa: 1e5,
    maxTestGaugePa: 3.5e6,
    refrigerant: "R-410A",
    gauge: { resolutionPa: 500, accuracyFraction: 0.005 },
    temperatureAccuracyK: 0.5,
    criteria: { testGaugePa: 3e6, holdS: 3600, maxLeakPaPerS: 8000 / 3600 },
    readings: Array.from({ length: 121 }, (_, index) => ({
      atS: index * 30,
      gaugePa: Math.round(pressureAt(index * 30) / 500) * 500,
      temperatureK: Math.round(temperatureAt(index * 30) * 10) / 10,
    })),
  };
}
const steadyAir = () => 293.15;

test("a pressure that stands in steady air is tight", () => {
  const judged = judgePressureTest(testRecord(() => 3e6, steadyAir));
  expect(judged.verdict).toBe("tight");
  expect(judged.leak!.interval95PaPerS[0]).toBe(0);
});

test("a pressure that falls only because the air cools is not accused", () => {
  const air = (s: number) => 293.15 - (2 * s) / 3600;
  const gas = (s: number) => 3.05e6 + PA_PER_K * (air(s) - 293.15);
  expect(judgePressureTest(testRecord(gas, air)).verdict).not.toBe("leaking");
});

test("heat left from filling is not taken for a leak", () => {
  const gas = (s: number) => 3e6 + PA_PER_K * 8 * Math.exp(-s / 400);
  const judged = judgePressureTest(testRecord(gas, steadyAir));
  expect(judged.verdict).toBe("tight");
});

test("a loss four times the limit in steady air is a leak, and its size is in the interval", () => {
  const leakPaPerS = (4 * 8000) / 3600;
  const judged = judgePressureTest(testRecord((s) => 3.04e6 - leakPaPerS * s, steadyAir));
  expect(judged.verdict).toBe("leaking");
  const [low, high] = judged.leak!.interval95PaPerS;
  expect(low).toBeLessThanOrEqual(leakPaPerS);
  expect(high).toBeGreaterThanOrEqual(leakPaPerS);
  expect(judged.leak!.throughputPaM3PerS).toBeCloseTo(judged.leak!.paPerS * 0.01, 12);
});

test("one reading above the weakest part's limit is over-pressure, whatever else is true", () => {
  const record = testRecord(() => 3e6, steadyAir);
  const readings = record.readings.map((reading, index) => (index === 60 ? { ...reading, gaugePa: 3.6e6 } : reading));
  expect(judgePressureTest({ ...record, readings }).verdict).toBe("over-pressure");
  expect(judgePressureTest({ ...record, readings: readings.slice(60, 61) }).verdict).toBe("over-pressure");
});

test("fewer than three readings prove nothing and give no leak", () => {
  const record = testRecord(() => 3e6, steadyAir);
  for (const count of [0, 1, 2]) {
    const judged = judgePressureTest({ ...record, readings: record.readings.slice(0, count) });
    expect(judged).toMatchObject({ verdict: "unproven", leak: null, reasons: [{ code: "too-few-readings" }] });
  }
});

test("a hold cut short is never a pass", () => {
  const record = testRecord(() => 3e6, steadyAir);
  const judged = judgePressureTest({ ...record, readings: record.readings.slice(0, 120) });
  expect(judged.verdict).toBe("unproven");
  expect(judged.reasons.map(({ code }) => code)).toContain("hold-too-short");
});

test("a first reading below the test pressure is never a pass", () => {
  const judged = judgePressureTest(testRecord(() => 2.99e6, steadyAir));
  expect(judged.verdict).toBe("unproven");
  expect(judged.reasons.map(({ code }) => code)).toContain("below-test-pressure");
});

test("nitrogen let in halfway is seen and is never a pass", () => {
  const judged = judgePressureTest(testRecord((s) => (s < 1800 ? 3e6 : 3.06e6) - s, steadyAir));
  expect(judged.verdict).not.toBe("tight");
  expect(judged.reasons.map(({ code }) => code)).toContain("gas-added");
});

test("a pressure that takes no notice of air swinging by 10 K is never a pass", () => {
  const judged = judgePressureTest(
    testRecord(
      () => 3e6,
      (s) => 293.15 + 5 * Math.sin(s / 500),
    ),
  );
  expect(judged.verdict).toBe("unproven");
});

test("single readings from a dropped radio packet do not change the verdict", () => {
  const record = testRecord(() => 3e6, steadyAir);
  const readings = record.readings.map((reading, index) => (index % 40 === 20 ? { ...reading, gaugePa: 0 } : reading));
  expect(judgePressureTest({ ...record, readings }).verdict).toBe("tight");
});

test("the same test an hour later on the clock is judged the same", () => {
  const record = testRecord((s) => 3e6 - s, steadyAir);
  const later = { ...record, readings: record.readings.map((reading) => ({ ...reading, atS: reading.atS + 3600 })) };
  expect(judgePressureTest(later)).toEqual(judgePressureTest(record));
});

test("no readings, however odd, make the judge throw or give an interval without its estimate", () => {
  const reading = fc.record({
    step: fc.integer({ min: 0, max: 600 }),
    gaugePa: fc.double({ min: 0, max: 5e6, noNaN: true }),
    temperatureK: fc.double({ min: 240, max: 330, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 14 }), (drawn) => {
      let atS = 0;
      const readings = drawn.map(({ step, ...rest }) => {
        atS += step;
        return { ...rest, atS };
      });
      const { leak } = judgePressureTest({ ...testRecord(() => 3e6, steadyAir), readings });
      if (leak === null) return;
      expect(leak.interval95PaPerS[0]).toBeGreaterThanOrEqual(0);
      expect(leak.paPerS).toBeGreaterThanOrEqual(leak.interval95PaPerS[0]);
      expect(leak.paPerS).toBeLessThanOrEqual(leak.interval95PaPerS[1]);
    }),
    { numRuns: 25, seed: 7 },
  );
});

test("the normal distribution function has its printed values (NIST/SEMATECH e-Handbook, 1.3.6.7.1)", () => {
  expect(normalBelow(0)).toBeCloseTo(0.5, 5);
  expect(normalBelow(1.96)).toBeCloseTo(0.975, 5);
  expect(normalBelow(-3)).toBeCloseTo(0.00135, 5);
});

test.each([
  { name: "one kPa", resolutionPa: 1000, widestPaPerS: 2000 / 3600 },
  { name: "a hundredth of that", resolutionPa: 10, widestPaPerS: 600 / 3600 },
])(
  "a display in steps of $name that never moves for two hours shows a tight circuit",
  ({ resolutionPa, widestPaPerS }) => {
    const steady = testRecord(() => 0, steadyAir);
    const readings = Array.from({ length: 61 }, (_, index) => ({
      atS: 120 * index,
      gaugePa: 1_508_675,
      temperatureK: 295.15,
    }));
    const judged = judgePressureTest({
      ...steady,
      readings,
      gauge: { resolutionPa, accuracyFraction: 0.005 },
      criteria: { testGaugePa: 1.5e6, holdS: 7200, maxLeakPaPerS: 10_000 / 3600 },
    });
    expect(judged.verdict).toBe("tight");
    expect(judged.leak!.interval95PaPerS[1]).toBeLessThan(widestPaPerS);
  },
);

test.each(["steady", "choked"] as const)("a large loss by a %s flow is read at the first pressure", (flow) => {
  const leakPaPerS = 200_000 / 3600;
  const startAbsPa = 3.1e6;
  const share = (s: number) => (leakPaPerS * s) / startAbsPa;
  const left = (s: number) => (flow === "steady" ? 1 - share(s) : Math.exp(-share(s)));
  const [low, high] = judgePressureTest(testRecord((s) => startAbsPa * left(s) - 1e5, steadyAir)).leak!
    .interval95PaPerS;
  expect(low).toBeLessThanOrEqual(leakPaPerS);
  expect(high).toBeGreaterThanOrEqual(leakPaPerS);
  expect(high - low).toBeLessThan(0.2 * leakPaPerS);
});

test("a cylinder left open is not passed, though the leak it feeds leaves the pressure standing", () => {
  for (let seed = 3000; seed < 3030; seed++)
    if (
      testOfKind("cylinder-open", seed).trueLeakPaPerS > testOfKind("cylinder-open", seed).record.criteria.maxLeakPaPerS
    )
      expect(judgePressureTest(testOfKind("cylinder-open", seed).record).verdict).not.toBe("tight");
});

test.each([testOfKind("cylinder-open", 50_039), testOfKind("cylinder-open", 50_213), simulatePressureTest(61_487)])(
  "nor one that began to feed it only once the gas had come down to its regulator's pressure",
  (made) => {
    expect(made.trueLeakPaPerS).toBeGreaterThan(made.record.criteria.maxLeakPaPerS);
    expect(judgePressureTest(made.record)).toMatchObject({
      verdict: "unproven",
      reasons: [{ code: "pressure-ignores-air" }],
    });
  },
);

test("a warming gas does not hide a leak behind a thermometer far coarser than the gauge", () => {
  const { record, trueLeakPaPerS } = testOfKind("warming-morning", 8083);
  expect(trueLeakPaPerS).toBeGreaterThan(record.criteria.maxLeakPaPerS);
  expect(judgePressureTest(record).verdict).not.toBe("tight");
});

test.each([
  { simulator: "one-body", from: 1000, to: 1060 },
  { simulator: "two-body", from: 1000, to: 1060 },
  { simulator: "every-kind", from: 1000, to: 1088 },
] as const)("simulated $simulator tests: no false pass, honest intervals", ({ simulator, from, to }) => {
  const rates = pressureTestErrorRates(simulator, from, to);
  expect(rates.falsePasses).toBe(0);
  expect(rates.accused).toBe(0);
  expect(rates.overPressureMissed).toBe(0);
  expect(rates.covered / rates.count).toBeGreaterThan(0.9);
  expect(rates.heldBack).toBeLessThanOrEqual(0.15 * rates.provablySound);
});
