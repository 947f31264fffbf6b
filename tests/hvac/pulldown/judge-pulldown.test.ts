import fc from "fast-check";
import { expect, test } from "vitest";
import { compareRigs } from "@/lib/hvac/pulldown/compare-rigs";
import { judgePulldown } from "@/lib/hvac/pulldown/judge-pulldown";
import { advance, effectiveSpeedM3PerS, type Plant, plateConductance } from "@/lib/hvac/pulldown/plant";
import type { PulldownRecord } from "@/lib/hvac/pulldown/record";
import { at, PULLDOWN_SIMULATORS, type PulldownSimulator, pulldownForecastErrors } from "./forecast-errors";
import { simulatePulldown } from "./simulated-pulldown";

const wide: Plant = {
  volumeM3: 0.01,
  speedM3PerS: 0.001,
  pumpFloorPa: 0,
  viscous: 1,
  molecular: 1,
  leak: 0,
  walls: 0,
  wallsFadeS: 1,
  oil: 0,
  oilFadeS: 1,
  evaporation: 0,
  saturationPa: 2000,
  water: 0,
  filmShare: 1,
  chill: 0,
  chillFadeS: 1,
  gaugeAtPump: false,
};

function fallingRecord(pressureAt: (s: number) => number, seconds: number): PulldownRecord {
  return {
    internalVolumeM3: 0.01,
    wallTemperatureK: 295,
    pump: { speedM3PerS: 0.002, ultimateAbsPa: 3 },
    valveCoresRemoved: true,
    hoses: { innerDiameterM: 0.0127, lengthM: 1.5, count: 2 },
    gauge: { location: "system", resolutionPa: 0.1333, accuracyFraction: 0.05 },
    targetAbsPa: 66.66,
    readings: Array.from({ length: Math.floor(seconds / 5) + 1 }, (_, index) => ({
      atS: index * 5,
      pressureAbsPa: pressureAt(index * 5),
    })),
  };
}

test("a dry plant with wide hoses falls as the pump-down formula says: 10 L at 1 L/s, 73.2647 s to 500 micron", () => {
  const state = { pressurePa: 101_325, waterLeft: 0, chilled: 0, atS: 0 };
  advance(wide, state, 73.2647, 0.02);
  expect(Math.abs(Math.log(state.pressurePa / 66.6612))).toBeLessThan(0.02);
});

test("a plant with a leak comes to rest where the inflow is what the pump takes: p = Q/S", () => {
  const state = { pressurePa: 1000, waterLeft: 0, chilled: 0, atS: 0 };
  advance({ ...wide, leak: 0.2 }, state, 2000);
  expect(state.pressurePa / 200).toBeCloseTo(1, 2);
  expect(effectiveSpeedM3PerS(wide, 100)).toBeCloseTo(0.001, 5);
});

test("a steady fall is run on to the target", () => {
  const judged = judgePulldown(fallingRecord((s) => 101_325 * Math.exp(-0.05 * s), 100));
  const leftS = Math.log(101_325 / 66.66) / 0.05 - 100;
  expect(judged.finding).toBe("on-course");
  expect(Math.abs(Math.log(judged.etaToTargetS! / leftS))).toBeLessThan(0.3);
  expect(judged.interval80S![0]).toBeLessThanOrEqual(judged.etaToTargetS!);
});

test("a pressure that has come to rest above the target never reaches it, and the reason is named", () => {
  const judged = judgePulldown(fallingRecord((s) => 200 + 101_325 * Math.exp(-0.05 * s), 1800));
  expect(judged.etaToTargetS).toBeNull();
  expect(judged.finding).toMatch(/^stalled-by-/);
  expect(judged.reasons[0]!.text.length).toBeGreaterThan(30);
});

test("what a leak and tired pump oil alike can do is said as either, with the way to tell them apart", () => {
  const { reasons } = judgePulldown(fallingRecord((s) => 130 + 101_325 * Math.exp(-0.05 * s), 1800));
  const codes = reasons.map(({ code }) => code);
  expect(codes).toEqual(expect.arrayContaining(["stalled-by-leak", "stalled-by-pump", "leak-or-pump"]));
});

test("a way that lets a twentieth of its plate through is named as the restriction, with what wider hoses would save", () => {
  const share = 1 / 20;
  const hoses = { innerDiameterM: 0.0048, lengthM: 1.5, count: 1 };
  const plate = plateConductance(hoses);
  const narrow: Plant = {
    ...wide,
    volumeM3: 0.04,
    speedM3PerS: 0.0015,
    pumpFloorPa: 3,
    viscous: share * plate.viscous,
    molecular: share * plate.molecular,
  };
  const state = { pressurePa: 101_325, waterLeft: 0, chilled: 0, atS: 0 };
  const record = fallingRecord((s) => {
    advance(narrow, state, s);
    return state.pressurePa;
  }, 1500);
  const judged = judgePulldown({ ...record, internalVolumeM3: narrow.volumeM3, hoses });
  expect(judged).toMatchObject({ etaToTargetS: null, finding: "stalled-by-restriction" });
  expect(judged.reasons.map(({ code }) => code)).toContain("wider-hoses-save");
});

test("a record without scatter read to 25 micron is run on as well as a fine one", () => {
  const resolutionPa = 25 * 0.13332;
  const fall = (s: number) => 15 + 101_325 * Math.exp(-0.02 * s);
  const coarse = (s: number) => Math.round(fall(s) / resolutionPa) * resolutionPa;
  const record = fallingRecord(coarse, 280);
  const judged = judgePulldown({ ...record, gauge: { ...record.gauge, resolutionPa } });
  const leftS = Math.log(101_325 / (66.66 + resolutionPa / 2 - 15)) / 0.02 - 280;
  expect(Math.abs(Math.log(judged.etaToTargetS! / leftS))).toBeLessThan(0.2);
});

test("a gauge that reads the target is there, whatever came before", () => {
  const judged = judgePulldown(fallingRecord((s) => Math.max(60, 1000 - 10 * s), 120));
  expect(judged).toMatchObject({ etaToTargetS: 0, interval80S: [0, 0], finding: "reached" });
});

test("no readings say nothing; three say no more than the plates do, within a wide interval", () => {
  expect(judgePulldown({ ...fallingRecord(() => 1e5, 5), readings: [] })).toMatchObject({
    etaToTargetS: null,
    interval80S: null,
    finding: "too-early",
  });
  const { finding, etaToTargetS, interval80S } = judgePulldown(fallingRecord((s) => 101_325 * Math.exp(-0.05 * s), 10));
  expect(finding).toBe("too-early");
  expect(etaToTargetS).toBeGreaterThan(60);
  expect(Math.log((interval80S![1] ?? 14_400) / interval80S![0])).toBeGreaterThan(0.3);
});

test.each([1300, 3333])(
  "a gauge that shows nothing above %i Pa does not make a falling pressure a stall",
  (rangeEndPa) => {
    const fall = (s: number) => Math.min(rangeEndPa, 101_325 * Math.exp(-0.05 * s));
    const judged = judgePulldown(fallingRecord(fall, 110));
    const leftS = Math.log(101_325 / 66.66) / 0.05 - 110;
    expect(Math.abs(Math.log(judged.etaToTargetS! / leftS))).toBeLessThan(0.3);
    expect(judgePulldown(fallingRecord(fall, 60)).etaToTargetS).not.toBeNull();
  },
);

test("the readings go before the plate: a plate three times too large changes the time by less than a third", () => {
  const record = fallingRecord((s) => 20 + 101_325 * Math.exp(-0.04 * s), 130);
  const boasted = { ...record, pump: { ...record.pump, speedM3PerS: record.pump.speedM3PerS * 3 } };
  const ratio = judgePulldown(boasted).etaToTargetS! / judgePulldown(record).etaToTargetS!;
  expect(Math.abs(Math.log(ratio))).toBeLessThan(0.33);
});

test("wider hoses and cores out save time, and never cost any", () => {
  const record = { ...fallingRecord(() => 1e5, 5), hoses: { innerDiameterM: 0.0048, lengthM: 1.5, count: 1 } };
  const wideHoses = { innerDiameterM: 0.0127, lengthM: 1.5, count: 1 };
  const wider = compareRigs(record, { hoses: wideHoses, valveCoresRemoved: true })!;
  expect(wider.savedS).toBeGreaterThan(0.5 * wider.asIsS);
  const coresOut = compareRigs(
    { ...record, valveCoresRemoved: false },
    { hoses: record.hoses, valveCoresRemoved: true },
  )!;
  expect(coresOut.savedS).toBeGreaterThan(0);
});

test("no readings, however odd, make the judge throw or turn its interval round", () => {
  const reading = fc.record({
    step: fc.integer({ min: 0, max: 120 }),
    pressureAbsPa: fc.double({ min: 0, max: 1e5, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 12 }), (drawn) => {
      let atS = 0;
      const readings = drawn.map(({ step, pressureAbsPa }) => {
        atS += step;
        return { atS, pressureAbsPa };
      });
      const { etaToTargetS, interval80S } = judgePulldown({ ...fallingRecord(() => 1e5, 5), readings });
      if (etaToTargetS === null) return;
      expect(interval80S![0]).toBeLessThanOrEqual(etaToTargetS);
      if (interval80S![1] !== null) expect(interval80S![1]).toBeGreaterThanOrEqual(etaToTargetS);
    }),
    { numRuns: 25, seed: 11 },
  );
});

test("a simulated pulldown is the same one each time", () => {
  expect(simulatePulldown(3)).toEqual(simulatePulldown(3));
});

/** Some twenty pulldowns each: loose bounds. The figures come from bench/pulldown.ts. */
const MEDIAN_AT_MOST: Record<PulldownSimulator, number> = { plant: 0.16, "steady-rig": 0.06, "cold-film": 0.25 };

test.each(PULLDOWN_SIMULATORS)("simulated %s pulldowns: nearer than a straight line, never is told apart", (kind) => {
  const errors = pulldownForecastErrors(kind, 1000, 1030);
  expect(at(errors.logErrors, 0.5)).toBeLessThan(MEDIAN_AT_MOST[kind]);
  expect(at(errors.logErrors, 0.9)).toBeLessThan(at(errors.straightLineLogErrors, 0.9));
  expect(at(errors.logErrors, 0.5)).toBeLessThan(at(errors.straightLineLogErrors, 0.5));
  expect(errors.neverSaid).toBeGreaterThanOrEqual(errors.never - 1);
  expect(errors.wronglyNever).toBeLessThanOrEqual(2);
});
