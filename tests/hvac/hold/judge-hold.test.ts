import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { judgeHold, startHold } from "@/lib/hvac/hold/judge-hold";
import type { HoldRecord } from "@/lib/hvac/hold/record";
import { celsiusToKelvin, micronToPa } from "@/lib/hvac/units";

/** Ten minutes at 500/1000 micron with a reading every 5 s of this curve. */
function record(micronAt: (atS: number) => number, change: Partial<HoldRecord> = {}, untilS = 600): HoldRecord {
  const times = Array.from({ length: untilS / 5 + 1 }, (_, index) => index * 5);
  return {
    internalVolumeM3: 0.0124,
    wallTemperatureK: celsiusToKelvin(21),
    refrigerant: "R-410A",
    gauge: { location: "system", resolutionPa: micronToPa(1), accuracyFraction: 0.05 },
    criteria: {
      targetPa: micronToPa(500),
      holdS: 600,
      maxFinalPa: micronToPa(1000),
      maxSteadyRisePaPerS: micronToPa(10) / 60,
    },
    readings: times.map((atS) => ({ atS, pressureAbsPa: micronToPa(Math.round(micronAt(atS) + jitter(atS))) })),
    ...change,
  };
}

/** Repeatable restlessness of about a micron. */
function jitter(atS: number): number {
  return 1.4 * Math.sin(atS * 12.9898) * Math.cos(atS * 78.233);
}

const dry = (atS: number) => 310 + 60 * (1 - Math.exp(-atS / 60));
const codes = (hold: HoldRecord) => judgeHold(hold).reasons.map(({ code }) => code);

describe("an isolated hold", () => {
  test("that fades under the limit is dry and tight, and says that the valve can hide a leak", () => {
    const judgement = judgeHold(record(dry));
    expect(judgement.verdict).toBe("dry-and-tight");
    expect(judgement.reasons.map(({ code }) => code)).toContain("valve-can-hide-leak");
    expect(judgement.leak!.interval95PaPerS[0]).toBe(0);
    expect(judgement.nextAction.code).toBe("break-vacuum-and-charge");
  });

  test("that goes on rising is leaking; one that levels off too high is wet; one that does both is both", () => {
    expect(judgeHold(record((s) => dry(s) + (80 * s) / 60)).verdict).toBe("leaking");
    expect(judgeHold(record((s) => 310 + 1500 * (1 - Math.exp(-s / 150)))).verdict).toBe("wet");
    const both = (s: number) => 310 + 1500 * (1 - Math.exp(-s / 60)) + (150 * s) / 60;
    expect(judgeHold(record(both)).verdict).toBe("wet-and-leaking");
  });

  test("that is under the limit at ten minutes and heading above it does not pass", () => {
    const slow = judgeHold(record((s) => 310 + 1300 * (1 - Math.exp(-s / 900))));
    expect(slow.verdict).not.toBe("dry-and-tight");
  });

  test.each([
    ["hold-too-short", record(dry, {}, 595)],
    ["gauge-at-pump", record(dry, { gauge: { ...record(dry).gauge, location: "pump" } })],
    ["start-above-target", record((s) => dry(s) + 260)],
    ["not-isolated", record((s) => 120 + 200 * Math.exp(-s / 200))],
    ["pump-restarted", record((s) => (s < 300 ? dry(s) : 90 + 280 * Math.exp(-(s - 300) / 20)))],
    ["gauge-stuck", record((s) => 310 - jitter(s))],
    ["too-few-readings", record(dry, { readings: record(dry).readings.slice(0, 2) })],
  ] as const)("is unproven for a reason it names: %s", (code, hold) => {
    expect(judgeHold(hold).verdict).toBe("unproven");
    expect(codes(hold)).toContain(code);
  });

  test("with a long stretch unread is unproven", () => {
    const whole = record(dry);
    const readings = whole.readings.filter(({ atS }) => atS < 100 || atS > 400);
    expect(codes({ ...whole, readings })).toContain("gap-in-record");
  });

  test("never passes before the criteria's time", () => {
    const { readings, ...terms } = record(dry);
    const hold = startHold(terms);
    for (const reading of readings) {
      hold.add(reading);
      if (reading.atS < 600) expect(hold.judge().verdict).toBe("unproven");
    }
    expect(hold.judge().verdict).toBe("dry-and-tight");
  });

  test("nonsense from the radio neither fails a sound circuit nor hides a leak", () => {
    for (const [curve, verdict] of [
      [dry, "dry-and-tight"],
      [(s: number) => dry(s) + (80 * s) / 60, "leaking"],
    ] as const) {
      const whole = record(curve);
      const readings = whole.readings.map((reading, index) => {
        if (index % 17 !== 5) return reading;
        return { ...reading, pressureAbsPa: [0, 101_325, reading.pressureAbsPa * 10][index % 3]! };
      });
      const judgement = judgeHold({ ...whole, readings });
      expect(judgement.verdict).toBe(verdict);
      expect(judgement.reasons.map(({ code }) => code)).toContain("readings-ignored");
    }
  });

  test("a leak hidden by a cooling coil is not passed when the temperatures are there", () => {
    const cooled = record((s) => (dry(s) + (25 * s) / 60) * (1 - (0.02 * s) / 600));
    const readings = cooled.readings.map((reading) => ({
      ...reading,
      temperatureK: celsiusToKelvin(21) - (5.9 * reading.atS) / 600,
    }));
    expect(judgeHold({ ...cooled, readings }).verdict).not.toBe("dry-and-tight");
  });

  test("draws a band from isolation past the last reading, lowest never above highest", () => {
    const { band } = judgeHold(record(dry));
    expect(band[0]!.atS).toBe(0);
    expect(band[band.length - 1]!.atS).toBeGreaterThan(600);
    for (const { loPa, midPa, hiPa } of band) {
      expect(loPa).toBeLessThanOrEqual(midPa);
      expect(midPa).toBeLessThanOrEqual(hiPa);
    }
  });

  test("is judged alike at once and reading by reading", () => {
    const whole = record(dry);
    const { readings, ...terms } = whole;
    const hold = startHold(terms);
    for (const reading of readings) {
      hold.add(reading);
      if (reading.atS % 60 === 0) hold.judge();
    }
    expect(hold.judge()).toEqual(judgeHold(whole));
  });

  test("any rising times and any pressures get an answer with finite numbers, and a short one never a pass", () => {
    const readings = fc.array(
      fc.record({ stepS: fc.double({ min: 0, max: 90, noNaN: true }), micron: fc.integer({ min: 0, max: 760_000 }) }),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(readings, (steps) => {
        let atS = 0;
        const hold = steps.map(({ stepS, micron }) => {
          atS += stepS;
          return { atS, pressureAbsPa: micronToPa(micron) };
        });
        const judgement = judgeHold({ ...record(dry), readings: hold });
        expect(judgement.reasons.length).toBeGreaterThan(0);
        if (judgement.leak) expect(judgement.leak.interval95PaPerS.every(Number.isFinite)).toBe(true);
        if (hold.length === 0 || atS - hold[0]!.atS < 600) expect(judgement.verdict).not.toBe("dry-and-tight");
      }),
      { numRuns: 300, seed: 20_260 },
    );
  });
});
