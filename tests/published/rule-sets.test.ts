import { describe, expect, test } from "vitest";
import {
  EU_CHECK_BANDS,
  EU_DETECTION_FROM,
  EU_HERMETIC_EXEMPT_BELOW,
  EU_RECHECK,
} from "@/lib/hvac/rules/eu-leak-checks";
import { PRESSURE_TEST_RULES } from "@/lib/hvac/rules/pressure-tests";
import { RULE_SETS } from "@/lib/hvac/rules/rule-sets";
import type { Mark } from "@/lib/hvac/rules/source";
import {
  CHRONIC_LEAK,
  INSPECTION_SOURCE,
  LEAK_DEADLINES,
  LEAK_DETECTION,
  LEAK_TRIGGER_FRACTION,
  LEAK_TRIGGER_SOURCES,
  PART_82_LEAST_CHARGE_KG,
  PART_84,
  QUARTERLY_INSPECTION_FROM_KG,
} from "@/lib/hvac/rules/us-leak";
import { US_RECOVERY_SOURCES } from "@/lib/hvac/rules/us-recovery";
import { fromKg, toKg } from "@/lib/hvac/units";

/* The rule books row by row, each figure with where it stands and how well it is known. */

describe("United States: 40 CFR 82 subpart F, 40 CFR 84 subpart C", () => {
  test("triggers in percent of the full charge a year: 82.157 read, 84.106 secondary", () => {
    expect(LEAK_TRIGGER_FRACTION).toEqual({
      "industrial-process-refrigeration": 0.3,
      "commercial-refrigeration": 0.2,
      "comfort-cooling": 0.1,
      "refrigerated-transport": 0.1,
      other: 0.1,
    });
    expect(LEAK_TRIGGER_SOURCES["part-82"].mark).toBe("read");
    expect(LEAK_TRIGGER_SOURCES["part-84"].mark).toBe("secondary");
  });

  test("held from 50 lb of an ozone depleting substance; from 15 lb of a GWP above 53 since 1 January 2026", () => {
    expect(PART_82_LEAST_CHARGE_KG).toBe(toKg(50, "lb"));
    expect(PART_84).toEqual({ leastChargeKg: toKg(15, "lb"), gwpAbove: 53, fromDate: "2026-01-01" });
  });

  test.each([
    ["repairDays", 30, "secondary"],
    ["repairDaysWithShutdown", 120, "secondary"],
    ["followUpDays", 10, "secondary"],
    ["planDays", 30, "secondary"],
    ["retrofitDays", 365, "secondary"],
  ] as const)("%s: %d days (%s)", (row, days, mark) => {
    expect(LEAK_DEADLINES[row]).toMatchObject({ days, mark });
  });

  test("125 % of the charge in a calendar year is reported by 1 March (secondary)", () => {
    expect(CHRONIC_LEAK).toMatchObject({ fraction: 1.25, reportBy: "03-01", mark: "secondary" });
  });

  test("quarterly inspections from 500 lb of refrigeration (memory)", () => {
    expect(QUARTERLY_INSPECTION_FROM_KG).toBe(toKg(500, "lb"));
    expect(INSPECTION_SOURCE.mark).toBe("memory");
  });

  test("leak detection: 1 500 lb, 10 ppm seen, alarm at 100 ppm or 50 lb or 10 %, older plant by 1 January 2027 (memory)", () => {
    expect(fromKg(LEAK_DETECTION.fromChargeKg, "lb")).toBeCloseTo(1500, 9);
    expect(fromKg(LEAK_DETECTION.alarmLossKg, "lb")).toBeCloseTo(50, 9);
    expect(LEAK_DETECTION).toMatchObject({
      uses: ["industrial-process-refrigeration", "commercial-refrigeration"],
      newFrom: "2026-01-01",
      newWithinDays: 30,
      existingFrom: "2017-01-01",
      detectPpm: 10,
      alarmPpm: 100,
      alarmLossFraction: 0.1,
      existingBy: "2027-01-01",
      mark: "memory",
    });
  });

  test.each([
    ["table", "read"],
    ["isolated-part", "read"],
    ["non-major-repair", "read"],
    ["level-unattainable", "secondary"],
    ["found-at-atmosphere", "secondary"],
    ["small-appliance", "secondary"],
    ["mvac-like", "memory"],
  ] as const satisfies readonly (readonly [keyof typeof US_RECOVERY_SOURCES, Mark])[])(
    "recovery by %s is %s",
    (route, mark) => {
      expect(US_RECOVERY_SOURCES[route].mark).toBe(mark);
      expect(US_RECOVERY_SOURCES[route].source).toMatch(/^40 CFR 82\.156/);
    },
  );

  test("records are kept three years (read); certificates of four types and section 609, without expiry (secondary)", () => {
    expect(RULE_SETS.us.recordYears).toMatchObject({ years: 3, mark: "read" });
    expect(RULE_SETS.us.certificates.kinds).toEqual(["Type I", "Type II", "Type III", "Universal", "Section 609"]);
    expect(RULE_SETS.us.certificates).toMatchObject({ mark: "secondary", source: expect.stringContaining("82.161") });
    expect(RULE_SETS.us.venting).toMatchObject({ mark: "read", source: expect.stringContaining("7671g") });
  });
});

describe("European Union: Regulation (EU) 2024/573, EN 378, ISO 5149", () => {
  test.each([
    { fromT: 5, fromKg: 1, months: 12, monthsWithDetection: 24 },
    { fromT: 50, fromKg: 10, months: 6, monthsWithDetection: 12 },
    { fromT: 500, fromKg: 100, months: 3, monthsWithDetection: 6 },
  ])(
    "from $fromT t or $fromKg kg: every $months months, $monthsWithDetection with detection (Article 5, memory)",
    (band) => {
      expect(EU_CHECK_BANDS).toContainEqual(band);
      expect(EU_CHECK_BANDS).toHaveLength(3);
    },
  );

  test("sealed and labelled is exempt under 10 t or 2 kg; repaired is checked after 24 h, within a month", () => {
    expect(EU_HERMETIC_EXEMPT_BELOW).toEqual({ tonnes: 10, kg: 2 });
    expect(EU_RECHECK).toEqual({ notBeforeHours: 24, withinMonths: 1 });
  });

  test("detection from 500 t or 100 kg (secondary), itself checked every 12 months (read for 517/2014)", () => {
    expect(EU_DETECTION_FROM).toEqual({ tonnes: 500, kg: 100, checkedEveryMonths: 12 });
  });

  test("records are kept five years (Article 7, secondary); certificates A1 to E of 2024/2215 (read)", () => {
    expect(RULE_SETS.eu.recordYears).toMatchObject({ years: 5, mark: "secondary" });
    expect(RULE_SETS.eu.certificates).toMatchObject({
      kinds: ["A1", "A2", "B", "C", "D", "E"],
      mark: "read",
      source: expect.stringContaining("2024/2215"),
    });
    expect(RULE_SETS.eu.venting).toMatchObject({ mark: "read", source: expect.stringContaining("Article 4") });
  });

  test("strength at 1.1 and tightness at 1.0 times the allowable pressure; in the US the design pressure (memory)", () => {
    expect(PRESSURE_TEST_RULES.eu).toMatchObject({ strengthFactor: 1.1, tightnessFactor: 1, mark: "memory" });
    expect(PRESSURE_TEST_RULES.us).toMatchObject({ strengthFactor: 1, tightnessFactor: 1, mark: "memory" });
  });
});
