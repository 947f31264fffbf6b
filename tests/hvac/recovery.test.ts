import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { judgeRecovery, type RecoveryRecord, type RecoveryRoute } from "@/lib/hvac/recovery";
import { STANDARD_ATMOSPHERE_PA, toKg, toPa } from "@/lib/hvac/units";

const large: RecoveryRecord = {
  pressureClass: "high",
  fullChargeKg: toKg(300, "lb"),
  machineAge: "on-or-after-1993-11-15",
  barometerPa: STANDARD_ATMOSPHERE_PA,
  route: { kind: "table" },
  finalGaugePa: -toPa(10, "inHg"),
  afterWaitGaugePa: -toPa(10, "inHg"),
  recoveredKg: 130,
};
const codes = (record: RecoveryRecord) => judgeRecovery(record).reasons.map(({ code }) => code);

describe("recovery", () => {
  test("the requirement is shown in the rule's unit, as absolute pressure, and with where it stands", () => {
    expect(judgeRecovery(large).required).toEqual({
      level: { value: 10, unit: "inHg-vacuum" },
      pressureAbsPa: toPa(19.9, "inHg"),
      source: "40 CFR 82.156(a) Table 1",
      mark: "read",
    });
  });

  test("a rise while waiting means refrigerant is still boiling off", () => {
    const judged = judgeRecovery({ ...large, afterWaitGaugePa: -toPa(6, "inHg") });
    expect(judged.verdict).toBe("not-reached");
    expect(judged.reasons[0]?.code).toBe("rose-while-waiting");
  });

  test("nobody waited: reached, and said so", () => {
    const { afterWaitGaugePa: _, ...unwatched } = large;
    expect(codes(unwatched)).toEqual(["level-reached", "not-watched"]);
  });

  test("thin air asks for less vacuum on the gauge, never for less on the absolute scale", () => {
    const barometerPa = 80_000; // about 1 900 m
    const gaugePa = toPa(19.9, "inHg") - barometerPa;
    const mountain = { ...large, barometerPa, finalGaugePa: gaugePa, afterWaitGaugePa: gaugePa };
    expect(gaugePa).toBeGreaterThan(-toPa(10, "inHg"));
    expect(judgeRecovery(mountain).verdict).toBe("reached");
  });

  test("zero vacuum is the gauge at zero, wherever the barometer stands", () => {
    for (const barometerPa of [80_000, STANDARD_ATMOSPHERE_PA, 104_000]) {
      const small = { ...large, fullChargeKg: 3, barometerPa };
      expect(judgeRecovery({ ...small, finalGaugePa: 0, afterWaitGaugePa: 0 }).verdict).toBe("reached");
      expect(judgeRecovery({ ...small, finalGaugePa: 2_000, afterWaitGaugePa: 2_000 }).verdict).toBe("not-reached");
    }
  });

  const leak = (over: Partial<Extract<RecoveryRoute, { kind: "level-unattainable" }>> = {}): RecoveryRoute => ({
    kind: "level-unattainable",
    because: "leak",
    evidence: "condenser, second hairpin",
    soundPartsIsolated: "yes",
    ...over,
  });

  test("a leak that makes the level unattainable is recovered to 0 psig, with evidence and sound parts isolated", () => {
    const at0 = { ...large, finalGaugePa: 0, afterWaitGaugePa: 0 };
    expect(judgeRecovery({ ...at0, route: leak() }).verdict).toBe("reached");
    expect(judgeRecovery({ ...at0, route: leak({ evidence: " " }) }).verdict).toBe("unproven");
    expect(judgeRecovery({ ...at0, route: leak({ soundPartsIsolated: "no" }) }).verdict).toBe("unproven");
    expect(judgeRecovery({ ...at0, route: leak({ soundPartsIsolated: "not-possible" }) }).verdict).toBe("reached");
    expect(judgeRecovery({ ...large, finalGaugePa: 9_000, afterWaitGaugePa: 9_000, route: leak() }).verdict).toBe(
      "not-reached",
    );
  });

  test("a circuit found at 0 psig needs to have been found there", () => {
    const at0 = { ...large, finalGaugePa: 0, afterWaitGaugePa: 0 };
    const found = { kind: "found-at-atmosphere", foundGaugePa: 0, evidence: "line cut by digger" } as const;
    expect(judgeRecovery({ ...at0, route: found }).verdict).toBe("reached");
    expect(judgeRecovery({ ...at0, route: { ...found, foundGaugePa: 30_000 } }).verdict).toBe("unproven");
  });

  test("the non-major repair is closed to a compressor change and to work that evacuates afterwards", () => {
    const at0 = { ...large, finalGaugePa: 0, afterWaitGaugePa: 0 };
    const minor = { kind: "non-major-repair", majorPartRemoved: false, evacuatedAfterwards: false } as const;
    expect(judgeRecovery({ ...at0, route: minor }).verdict).toBe("reached");
    expect(judgeRecovery({ ...at0, route: { ...minor, majorPartRemoved: true } }).verdict).toBe("unproven");
    expect(judgeRecovery({ ...at0, route: { ...minor, evacuatedAfterwards: true } }).verdict).toBe("unproven");
    expect(judgeRecovery({ ...at0, pressureClass: "low", route: minor }).verdict).toBe("unproven");
  });

  // Shares from 40 CFR 82.156(b), read in a secondary page.
  test.each([
    { machineAge: "before-1993-11-15", compressorWorks: true, share: 0.8 },
    { machineAge: "before-1993-11-15", compressorWorks: false, share: 0.8 },
    { machineAge: "on-or-after-1993-11-15", compressorWorks: true, share: 0.9 },
    { machineAge: "on-or-after-1993-11-15", compressorWorks: false, share: 0.8 },
  ] as const)("a small appliance ($machineAge, compressor $compressorWorks) gives up $share", (row) => {
    const small: RecoveryRecord = {
      ...large,
      fullChargeKg: 2,
      machineAge: row.machineAge,
      finalGaugePa: 0,
      afterWaitGaugePa: 0,
      route: { kind: "small-appliance", factorySealed: true, compressorWorks: row.compressorWorks },
      recoveredKg: 2 * row.share,
    };
    expect(judgeRecovery(small).verdict).toBe("reached");
    expect(judgeRecovery({ ...small, recoveredKg: 2 * row.share - 0.05 }).verdict).toBe("not-reached");
    const pulled = { finalGaugePa: -toPa(4, "inHg"), afterWaitGaugePa: -toPa(4, "inHg") };
    expect(judgeRecovery({ ...small, recoveredKg: 0, ...pulled }).verdict).toBe("reached");
    expect(judgeRecovery({ ...small, fullChargeKg: 2.5 }).verdict).toBe("unproven");
  });

  test("pulling deeper never turns a reached level into one not reached", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("low", "medium", "high", "very-high" as const),
        fc.double({ min: 0.5, max: 400, noNaN: true }),
        fc.double({ min: -90_000, max: 50_000, noNaN: true }),
        fc.double({ min: 0, max: 9_000, noNaN: true }),
        (pressureClass, fullChargeKg, gaugePa, deeperPa) => {
          const at = (pa: number) =>
            judgeRecovery({ ...large, pressureClass, fullChargeKg, finalGaugePa: pa, afterWaitGaugePa: pa });
          if (at(gaugePa).verdict === "reached") expect(at(gaugePa - deeperPa).verdict).toBe("reached");
        },
      ),
    );
  });
});
