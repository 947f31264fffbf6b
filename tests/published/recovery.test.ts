import { describe, expect, test } from "vitest";
import { judgeRecovery, type RecoveryRecord, recoveryLevelAbsPa, requiredRecoveryLevel } from "@/lib/hvac/recovery";
import { STANDARD_ATMOSPHERE_PA, toKg, toPa } from "@/lib/hvac/units";

/**
 * 40 CFR 82.156(a) Table 1, row by row: inches of mercury of vacuum against 29.9 inHg, low pressure in mm of
 * mercury absolute. An archived agency page prints 10 for medium pressure from 200 lb on; the regulation says 15.
 */
const table = [
  { pressureClass: "very-high", chargeLb: 5, older: 0, newer: 0 },
  { pressureClass: "very-high", chargeLb: 500, older: 0, newer: 0 },
  { pressureClass: "high", chargeLb: 10, older: 0, newer: 0 },
  { pressureClass: "high", chargeLb: 199.9, older: 0, newer: 0 },
  { pressureClass: "high", chargeLb: 200, older: 4, newer: 10 },
  { pressureClass: "high", chargeLb: 1000, older: 4, newer: 10 },
  { pressureClass: "medium", chargeLb: 10, older: 4, newer: 10 },
  { pressureClass: "medium", chargeLb: 199.9, older: 4, newer: 10 },
  { pressureClass: "medium", chargeLb: 200, older: 4, newer: 15 },
  { pressureClass: "medium", chargeLb: 1000, older: 4, newer: 15 },
  { pressureClass: "low", chargeLb: 300, older: 25, newer: 25 },
] as const;

describe("recovery before opening, 40 CFR 82.156(a) Table 1", () => {
  test.each(table)("$pressureClass pressure, $chargeLb lb: $older before 15 Nov 1993, $newer after", (row) => {
    const chargeKg = toKg(row.chargeLb, "lb");
    const unit = row.pressureClass === "low" ? "mmHg-absolute" : "inHg-vacuum";
    expect(requiredRecoveryLevel(row.pressureClass, chargeKg, "before-1993-11-15")).toEqual({ value: row.older, unit });
    expect(requiredRecoveryLevel(row.pressureClass, chargeKg, "on-or-after-1993-11-15")).toEqual({
      value: row.newer,
      unit,
    });
  });

  /** Computed against the rule's 29.9 inHg with 3.386389 kPa an inch. */
  test.each([
    { level: { value: 4, unit: "inHg-vacuum" }, kPa: 87.707 },
    { level: { value: 10, unit: "inHg-vacuum" }, kPa: 67.389 },
    { level: { value: 15, unit: "inHg-vacuum" }, kPa: 50.457 },
    { level: { value: 25, unit: "mmHg-absolute" }, kPa: 3.333 },
  ] as const)("$level.value $level.unit is $kPa kPa absolute", ({ level, kPa }) => {
    expect(recoveryLevelAbsPa(level, STANDARD_ATMOSPHERE_PA) / 1000 / kPa).toBeCloseTo(1, 4);
  });

  test.each(table)("$pressureClass, $chargeLb lb: the level itself is reached, a little above it is not", (row) => {
    const record = (machineAge: RecoveryRecord["machineAge"], gaugePa: number): RecoveryRecord => ({
      pressureClass: row.pressureClass,
      fullChargeKg: toKg(row.chargeLb, "lb"),
      machineAge,
      barometerPa: STANDARD_ATMOSPHERE_PA,
      route: { kind: "table" },
      finalGaugePa: gaugePa,
      afterWaitGaugePa: gaugePa,
      recoveredKg: 1,
    });
    for (const [machineAge, value] of [
      ["before-1993-11-15", row.older],
      ["on-or-after-1993-11-15", row.newer],
    ] as const) {
      const gaugePa = row.pressureClass === "low" ? toPa(value, "mmHg") - STANDARD_ATMOSPHERE_PA : -toPa(value, "inHg");
      expect(judgeRecovery(record(machineAge, gaugePa)).verdict).toBe("reached");
      expect(judgeRecovery(record(machineAge, gaugePa + 500)).verdict).toBe("not-reached");
    }
  });

  const at = (over: Partial<RecoveryRecord>) =>
    judgeRecovery({
      pressureClass: "high",
      fullChargeKg: toKg(300, "lb"),
      machineAge: "on-or-after-1993-11-15",
      barometerPa: STANDARD_ATMOSPHERE_PA,
      route: { kind: "table" },
      finalGaugePa: toPa(1, "psi"),
      afterWaitGaugePa: toPa(1, "psi"),
      recoveredKg: 0,
      ...over,
    });

  /** 40 CFR 82.156(b): shares of the charge (secondary), for factory-sealed appliances of 5 lb at most. */
  test.each([
    { age: "before-1993-11-15", compressorWorks: true, percent: 80 },
    { age: "before-1993-11-15", compressorWorks: false, percent: 80 },
    { age: "on-or-after-1993-11-15", compressorWorks: true, percent: 90 },
    { age: "on-or-after-1993-11-15", compressorWorks: false, percent: 80 },
  ] as const)("small appliance, machine $age, compressor works $compressorWorks: $percent %", (row) => {
    const route = { kind: "small-appliance", factorySealed: true, compressorWorks: row.compressorWorks } as const;
    const small = (percent: number, chargeLb = 5) =>
      at({
        machineAge: row.age,
        route,
        fullChargeKg: toKg(chargeLb, "lb"),
        recoveredKg: toKg((chargeLb * percent) / 100, "lb"),
      }).verdict;
    expect(small(row.percent)).toBe("reached");
    expect(small(row.percent - 0.1)).toBe("not-reached");
    expect(small(row.percent, 5.1)).toBe("unproven");
  });

  test("or 4 inHg of vacuum, whatever share came out (secondary)", () => {
    const small = { fullChargeKg: toKg(5, "lb"), recoveredKg: 0 };
    const route = { kind: "small-appliance", factorySealed: true, compressorWorks: true } as const;
    const pulled = (inHg: number) => -toPa(inHg, "inHg");
    const to = (inHg: number) =>
      at({ ...small, route, finalGaugePa: pulled(inHg), afterWaitGaugePa: pulled(inHg) }).verdict;
    expect(to(4)).toBe("reached");
    expect(to(3.8)).toBe("not-reached");
  });

  test("like a motor vehicle's: 102 mm of mercury below the atmosphere (memory)", () => {
    const to = (mmHg: number) => {
      const gaugePa = -toPa(mmHg, "mmHg");
      return at({ route: { kind: "mvac-like" }, finalGaugePa: gaugePa, afterWaitGaugePa: gaugePa }).verdict;
    };
    expect(to(102)).toBe("reached");
    expect(to(101)).toBe("not-reached");
  });

  /** 40 CFR 82.156(a): the ways around the table end at 0 psig; leaks (secondary), a repair that is not major (read). */
  test.each([
    { kind: "level-unattainable", because: "leak", evidence: "cracked header", soundPartsIsolated: "yes" },
    { kind: "level-unattainable", because: "contamination", evidence: "air", soundPartsIsolated: "not-possible" },
    { kind: "non-major-repair", majorPartRemoved: false, evacuatedAfterwards: false },
  ] as const)("$kind: recovered to 0 psig, not above it", (route) => {
    expect(at({ route, finalGaugePa: 0, afterWaitGaugePa: 0 }).verdict).toBe("reached");
    expect(at({ route }).verdict).toBe("not-reached");
  });

  test("compressor, condenser, evaporator or heat exchanger out makes a repair major (secondary): the table holds", () => {
    const route = { kind: "non-major-repair", majorPartRemoved: true, evacuatedAfterwards: false } as const;
    expect(at({ route, finalGaugePa: 0, afterWaitGaugePa: 0 }).verdict).toBe("unproven");
  });

  test("a part that can be isolated is recovered alone, to the same level (read)", () => {
    const route = { kind: "isolated-part", isolatedBy: "both service valves" } as const;
    const gaugePa = -toPa(10, "inHg");
    expect(at({ route, finalGaugePa: gaugePa, afterWaitGaugePa: gaugePa }).verdict).toBe("reached");
    expect(at({ route, finalGaugePa: 0, afterWaitGaugePa: 0 }).verdict).toBe("not-reached");
  });
});
