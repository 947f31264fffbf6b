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
});
