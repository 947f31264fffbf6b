import { describe, expect, test } from "vitest";
import type { EvidenceOf } from "@/lib/hvac/log/entry";
import { judges } from "@/lib/hvac/procedure/judges";
import { toPa } from "@/lib/hvac/units";
import { circuit, complete } from "./evidence-samples";

const kPa = (value: number, unit: "psi" | "inHg") => toPa(value, unit) / 1000;
const medium = {
  ...circuit,
  refrigerant: { state: "identified", refrigerant: "R-134a", safetyClass: "A1", pressureClass: "medium" } as const,
};
const recovery = (change: Partial<EvidenceOf<"recover">>, facts = circuit) =>
  judges.recovery({ evidence: { ...complete.recover, ...change }, circuit: facts });

describe("recovery, asked of the real judge", () => {
  // 40 CFR 82.156(a) Table 1: high pressure below 200 lb to 0 inHg, medium below 200 lb to 10 inHg (newer machines).
  test("a high-pressure circuit at 0 psig passes, at 5 psig it fails", () => {
    expect(recovery({ finalGaugeKPa: 0, afterWaitGaugeKPa: 0 }).outcome).toBe("passed");
    expect(recovery({ finalGaugeKPa: kPa(5, "psi"), afterWaitGaugeKPa: kPa(5, "psi") }).outcome).toBe("failed");
  });
  test("a medium-pressure circuit needs 10 inHg of vacuum", () => {
    const at = (inHg: number) => ({ finalGaugeKPa: -kPa(inHg, "inHg"), afterWaitGaugeKPa: -kPa(inHg, "inHg") });
    expect(recovery(at(10.2), medium).outcome).toBe("passed");
    expect(recovery(at(9), medium).outcome).toBe("failed");
  });
  test("a leak that makes the level unattainable is a criterion of its own, never above 0 psig", () => {
    const alternative = {
      code: "level-unattainable",
      because: "leak",
      evidence: "rubbed-through liquid line",
      soundPartsIsolated: "not-possible",
    } as const;
    const at = (gaugeKPa: number) => ({ finalGaugeKPa: gaugeKPa, afterWaitGaugeKPa: gaugeKPa, alternative });
    expect(recovery(at(0), medium).outcome).toBe("passed");
    expect(recovery(at(10), medium).outcome).toBe("failed");
  });
  test("nobody waited, nothing known of the refrigerant, or of the charge: not proven", () => {
    expect(recovery({ waitedMinutes: 0 }).outcome).toBe("unproven");
    expect(recovery({}, { ...circuit, refrigerant: { state: "unknown" } } as never).outcome).toBe("unproven");
    expect(recovery({}, { ...circuit, fullChargeKg: null } as never).outcome).toBe("unproven");
  });
  test("an overfilled cylinder is an alarm", () => {
    const stamp = {
      waterCapacityKg: 21.7,
      tareKg: 12,
      requalifiedMonth: "2025-01",
      disposable: false,
      damaged: false,
      markedForFlammables: false,
    };
    const filled = (grossAfterKg: number) => {
      const cylinders = [{ ...complete.recover.cylinders[0]!, grossAfterKg, stamp }];
      return judges.cylinders({ evidence: { ...complete.recover, cylinders }, circuit, day: "2026-11-25" });
    };
    expect(filled(25)).toEqual([]);
    expect(filled(33).map(({ code }) => code)).toContain("over-limit");
  });
});

describe("charge by weight, asked of the real judge", () => {
  // Published worked answer, split-system instructions: 75 ft of 1/2 in line at 1.2 oz/ft less 9 oz is +81 oz.
  const OUNCE_KG = 0.028349523125;
  const basis = {
    by: "factory-and-line-set",
    factoryChargeKg: 4,
    factoryChargeInUnit: true,
    lineLengthM: 75 * 0.3048,
    lineRateKgPerM: (1.2 * OUNCE_KG) / 0.3048,
    factoryLineAllowanceKg: 9 * OUNCE_KG,
    adders: [],
  } as const;
  const charged = (weighedInKg: number, chargedBeforeKg = 0) =>
    judges.charge({
      evidence: { ...complete.break_and_charge, basis: { ...basis, adders: [] }, weighedInKg },
      circuit,
      chargedBeforeKg,
    });

  test("the line-set adjustment of the maker's example passes, a pound less does not", () => {
    expect(charged(81 * OUNCE_KG).outcome).toBe("passed");
    expect(charged(65 * OUNCE_KG)).toMatchObject({ outcome: "unproven", verdict: "too-little" });
    expect(charged(97 * OUNCE_KG)).toMatchObject({ outcome: "unproven", verdict: "too-much" });
  });
  test("what an earlier entry weighed in counts", () => {
    expect(charged(16 * OUNCE_KG, 65 * OUNCE_KG).outcome).toBe("passed");
  });
  test("a flammable charge above the room's limit is not proven", () => {
    const flammable = {
      roomAreaM2: 10,
      mountingHeight: "floor",
      chargeLimitKg: 1,
      chargeLimitFrom: "unit manual",
      scaleGrounded: true,
      hosesPurged: true,
    } as const;
    const verdict = judges.charge({
      evidence: { ...complete.break_and_charge, flammable },
      circuit,
      chargedBeforeKg: 0,
    });
    expect(verdict.reasons.map(({ code }) => code)).toEqual(["charge-limit-exceeded"]);
  });
});

describe("pressure test and hold, asked of the real judges", () => {
  const criteria = { testPressureKPaGauge: 2790, holdMinutes: 30, maxLeakKPaPerHour: 10 };
  const test1 = (readings: readonly { s: number; kPaGauge: number; temperatureC: number }[], maxTestKPaGauge = 3100) =>
    judges.pressureTest({ evidence: complete.pressure_test, readings, criteria, maxTestKPaGauge, circuit });

  test("a reading above the weakest part's limit fails, whatever else is true", () => {
    const readings = [2850, 3150, 2850].map((kPaGauge, index) => ({ s: index * 900, kPaGauge, temperatureC: 20 }));
    expect(test1(readings)).toMatchObject({ outcome: "failed", verdict: "over-pressure" });
  });
  test("two readings prove nothing", () => {
    expect(test1([{ s: 0, kPaGauge: 2850, temperatureC: 20 }]).outcome).toBe("unproven");
  });
  test("a hold of one reading, or with the gauge at the pump, is unproven", () => {
    const holdCriteria = {
      targetMicron: 500,
      holdMinutes: 10,
      maxFinalMicron: 1000,
      maxSteadyRiseMicronPerMin: 5,
      failAtMicron: null,
    };
    const hold = (evidence: EvidenceOf<"hold">, readings: readonly { s: number; micron: number }[]) =>
      judges.hold({ evidence, readings, criteria: holdCriteria, circuit });
    expect(hold(complete.hold, [{ s: 0, micron: 300 }]).outcome).toBe("unproven");
    const atPump = { ...complete.hold, gauge: { ...complete.hold.gauge, location: "pump" as const } };
    const readings = Array.from({ length: 121 }, (_, index) => ({ s: index * 5, micron: 300 }));
    expect(hold(atPump, readings).outcome).toBe("unproven");
  });
});

describe("performance, asked of the real judge", () => {
  const ask = (change: Partial<EvidenceOf<"performance">>) =>
    judges.performance({ evidence: { ...complete.performance, ...change }, circuit });
  test("fifteen minutes of running and something measured are asked for", () => {
    // Stabilising time of 15 min: California RA3.2.2.
    expect(ask({}).outcome).toBe("passed");
    expect(ask({ ranMinutes: 14 }).outcome).toBe("unproven");
    expect(ask({ supplyAirC: null }).outcome).toBe("unproven");
  });
  test("superheat off its target is said and does not block", () => {
    const verdict = ask({ suction: { kPaGauge: 820, lineTemperatureC: 25 }, targetSuperheatK: 6 });
    expect(verdict).toMatchObject({ outcome: "passed", verdict: "off-target" });
    expect(verdict.figures.superheatK).toBeGreaterThan(15);
  });
});
