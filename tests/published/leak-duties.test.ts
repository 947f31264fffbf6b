import { describe, expect, test } from "vitest";
import {
  chargeForCarbonDioxideEquivalentKg,
  euRecheckAfterRepair,
  nextEuLeakCheck,
  planEuLeakChecks,
} from "@/lib/hvac/leak-checks-eu";
import { judgeLeakRate, type LeakRateCase, leakDetectionDueBy, verificationState } from "@/lib/hvac/leak-duties";
import { annualizedLeakRate, leakRulePart, rollingLeakRate } from "@/lib/hvac/leak-rate";
import { carbonDioxideEquivalentT } from "@/lib/hvac/refrigerants/global-warming";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import { toKg } from "@/lib/hvac/units";
import type { Result } from "@/lib/result";

function value<T>(result: Result<T, unknown>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.value;
}
const lb = (pounds: number) => toKg(pounds, "lb");

describe("US leak rate, 40 CFR 82.152", () => {
  /** First row: a worked example page, which prints 20.27; the others computed from the rule's formula. */
  test.each([
    { addedLb: 10, fullLb: 100, days: 180, percent: 20.277778 },
    { addedLb: 30, fullLb: 200, days: 120, percent: 45.625 },
    { addedLb: 30, fullLb: 200, days: 500, percent: 15 },
    { addedLb: 30, fullLb: 200, days: null, percent: 15 },
  ])("annualizing: $addedLb of $fullLb lb after $days days is $percent %", ({ addedLb, fullLb, days, percent }) => {
    expect(value(annualizedLeakRate(lb(addedLb), lb(fullLb), days)) * 100).toBeCloseTo(percent, 6);
  });

  test("rolling: 10, 15 and 5 lb of 200 within the year are 15 %", () => {
    const topUps = [
      { date: "2026-01-10", addedKg: lb(10) },
      { date: "2026-05-02", addedKg: lb(15) },
      { date: "2026-11-25", addedKg: lb(5) },
    ];
    expect(value(rollingLeakRate(topUps, lb(200), "2026-11-25"))).toBeCloseTo(0.15, 12);
  });

  /** Part 82 read; Part 84 and transport read in a secondary page. The older 35/35/15 % no longer hold. */
  test.each([
    { use: "industrial-process-refrigeration", percent: 30 },
    { use: "commercial-refrigeration", percent: 20 },
    { use: "comfort-cooling", percent: 10 },
    { use: "refrigerated-transport", percent: 10 },
    { use: "other", percent: 10 },
  ] as const)("$use must be repaired above $percent %", ({ use, percent }) => {
    const at = (leakFraction: number): LeakRateCase => ({
      part: "part-84",
      use,
      leakFraction,
      fullChargeKg: 40,
      date: "2026-11-25",
      processShutdownNeeded: false,
      addedThisYearKg: 0,
    });
    expect(judgeLeakRate(at(percent / 100)).verdict).toBe("below-trigger");
    expect(judgeLeakRate(at(percent / 100 + 1e-6)).verdict).toBe("above-trigger");
  });

  /** 30 and 120 days, 10 days for the follow-up, 125 % by 1 March: secondary pages of 40 CFR 82.157. */
  test("deadlines: 30 days, 120 with a process shutdown, 125 % reported by 1 March", () => {
    const leak: LeakRateCase = {
      part: "part-82",
      use: "industrial-process-refrigeration",
      leakFraction: 0.5,
      fullChargeKg: 400,
      date: "2026-11-25",
      processShutdownNeeded: false,
      addedThisYearKg: 500,
    };
    const due = (over: Partial<LeakRateCase>) =>
      new Map(judgeLeakRate({ ...leak, ...over }).duties.map(({ code, dueBy }) => [code, dueBy]));
    expect(due({}).get("repair")).toBe("2026-12-25");
    expect(due({}).get("initial-verification")).toBe("2026-12-25");
    expect(due({ processShutdownNeeded: true }).get("repair")).toBe("2027-03-25");
    expect(due({}).get("chronic-report")).toBe("2027-03-01");
    expect(due({ addedThisYearKg: 499.9 }).has("chronic-report")).toBe(false);
    const tested = {
      repairedOn: "2026-11-26",
      initialTestOn: "2026-11-26",
      initialTestPassed: true,
      normalOperationOn: null,
      followUpTestOn: null,
      followUpTestPassed: false,
    };
    expect(verificationState(tested)).toEqual({ state: "follow-up-due", dueBy: "2026-12-06" });
  });

  /** 40 CFR 84.108 from memory: configurable data, checked here only for consistency. */
  test("leak detection is due at 1 500 lb of refrigeration, sooner for new plant", () => {
    const at = (pounds: number, installedOn: string, use: "commercial-refrigeration" | "comfort-cooling") =>
      leakDetectionDueBy("part-84", use, lb(pounds), installedOn);
    expect(at(1500, "2026-03-01", "commercial-refrigeration")).toBe("2026-03-31");
    expect(at(1500, "2020-03-01", "commercial-refrigeration")).toBe("2027-01-01");
    expect(at(1500, "2016-12-31", "commercial-refrigeration")).toBeNull();
    expect(at(1499, "2026-03-01", "commercial-refrigeration")).toBeNull();
    expect(at(1500, "2026-03-01", "comfort-cooling")).toBeNull();
  });

  /** 50 lb of an ODS (read); 15 lb and a potential above 53 from 1 January 2026 (secondary). */
  test.each([
    { ozoneDepleting: true, gwp: 1810, pounds: 50, date: "2026-11-25", part: "part-82" },
    { ozoneDepleting: true, gwp: 1810, pounds: 49.9, date: "2026-11-25", part: null },
    { ozoneDepleting: false, gwp: 2088, pounds: 15, date: "2026-01-01", part: "part-84" },
    { ozoneDepleting: false, gwp: 2088, pounds: 15, date: "2025-12-31", part: null },
    { ozoneDepleting: false, gwp: 2088, pounds: 14.9, date: "2026-01-01", part: null },
    { ozoneDepleting: false, gwp: 53, pounds: 100, date: "2026-01-01", part: null },
  ] as const)("ODS $ozoneDepleting, GWP $gwp, $pounds lb on $date: $part", (row) => {
    const { ozoneDepleting, gwp, pounds, date, part } = row;
    const appliance = { ozoneDepleting, gwp, fullChargeKg: lb(pounds), date, use: "other" as const };
    expect(leakRulePart({ ...appliance, residentialOrLightCommercial: false })).toBe(part);
    if (part === "part-84") expect(leakRulePart({ ...appliance, residentialOrLightCommercial: true })).toBeNull();
  });
});

describe("EU leak checks, Regulation (EU) 2024/573", () => {
  test("2.39 kg of R-410A is the 5 t a service manual prints; the exact threshold is 2.395 kg", () => {
    expect(carbonDioxideEquivalentT(2.39, 2087.5)).toBeCloseTo(4.989125, 9);
    expect(chargeForCarbonDioxideEquivalentKg(findRefrigerant("R-410A")!, 5)).toBeCloseTo(2.395, 3);
  });

  /** Computed from the annex values; charge in kg at 5, 10, 50 and 500 t. */
  test.each([
    { name: "R-134a", kg: [3.5, 6.99, 34.97, 349.7] },
    { name: "R-404A", kg: [1.275, 2.55, 12.75, 127.5] },
    { name: "R-32", kg: [7.41, 14.81, 74.07, 740.7] },
    { name: "R-407C", kg: [2.82, 5.64, 28.19, 281.9] },
  ])("$name reaches 5, 10, 50 and 500 t at $kg kg", ({ name, kg }) => {
    [5, 10, 50, 500].forEach((tonnes, i) => {
      const exact = chargeForCarbonDioxideEquivalentKg(findRefrigerant(name)!, tonnes);
      expect(Math.abs(exact / kg[i]! - 1)).toBeLessThan(0.0016);
    });
  });

  /** Article 5 (memory; 12 months from 5 t read for the predecessor). */
  test.each([
    { name: "R-404A", chargeKg: 1.2, months: null, withDetection: null, mandatory: false },
    { name: "R-404A", chargeKg: 1.3, months: 12, withDetection: 24, mandatory: false },
    { name: "R-404A", chargeKg: 13, months: 6, withDetection: 12, mandatory: false },
    { name: "R-404A", chargeKg: 128, months: 3, withDetection: 6, mandatory: true },
    { name: "R-1234yf", chargeKg: 0.9, months: null, withDetection: null, mandatory: false },
    { name: "R-1234yf", chargeKg: 1, months: 12, withDetection: 24, mandatory: false },
    { name: "R-1234yf", chargeKg: 10, months: 6, withDetection: 12, mandatory: false },
    { name: "R-1234yf", chargeKg: 100, months: 3, withDetection: 6, mandatory: true },
    { name: "R-744", chargeKg: 1000, months: null, withDetection: null, mandatory: false },
  ])("$chargeKg kg of $name: every $months months, $withDetection with detection", (row) => {
    const refrigerant = findRefrigerant(row.name)!;
    const circuit = { refrigerant, chargeKg: row.chargeKg, hermeticLabelled: false };
    const bare = planEuLeakChecks({ ...circuit, detectionSystem: false });
    expect(bare.everyMonths).toBe(row.months);
    expect(bare.detectionMandatory).toBe(row.mandatory);
    expect(planEuLeakChecks({ ...circuit, detectionSystem: true }).everyMonths).toBe(row.withDetection);
  });

  test("a labelled hermetic circuit is exempt under 10 t, or 2 kg of HFO (memory)", () => {
    const at = (name: string, chargeKg: number) =>
      planEuLeakChecks({
        refrigerant: findRefrigerant(name)!,
        chargeKg,
        detectionSystem: false,
        hermeticLabelled: true,
      });
    expect(at("R-404A", 2.5).reason).toBe("hermetic");
    expect(at("R-404A", 2.6).everyMonths).toBe(12);
    expect(at("R-1234yf", 1.9).reason).toBe("hermetic");
    expect(at("R-1234yf", 2).everyMonths).toBe(12);
  });

  test("a repaired leak is checked again within a month (secondary), not before a day of running (memory)", () => {
    expect(euRecheckAfterRepair("2026-01-31")).toMatchObject({ from: "2026-02-01", dueBy: "2026-02-28" });
  });

  test("the next regular check counts from the last one", () => {
    const plan = planEuLeakChecks({
      refrigerant: findRefrigerant("R-404A")!,
      chargeKg: 13,
      detectionSystem: false,
      hermeticLabelled: false,
    });
    expect(nextEuLeakCheck(plan, "2026-08-31")).toMatchObject({ dueBy: "2027-02-28" });
    expect(nextEuLeakCheck({ ...plan, everyMonths: null }, "2026-08-31")).toBeNull();
  });
});
