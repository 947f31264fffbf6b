import { describe, expect, test } from "vitest";
import { circuitFacts } from "@/lib/hvac/log/circuit-schema";
import { circuitFactsOf, type RegisteredCircuit, refrigerantFactOf } from "@/lib/work/circuit-facts";

const registered: RegisteredCircuit = {
  refrigerantState: "identified",
  actualRefrigerant: "R-410A",
  factoryChargeKg: 3.2,
  lineLengthM: 15,
  liquidLineOdMm: 9.53,
  suctionLineOdMm: 19.05,
  internalVolumeL: 12.4,
  internalVolumeBasis: "stated",
  lowSideDesignKpaGauge: 1724,
  highSideDesignKpaGauge: 3275,
  applianceKind: "comfort_cooling",
};
const day = "2026-11-25";
const facts = (change: Partial<RegisteredCircuit> = {}, ruleSet: "us" | "eu" = "us") =>
  circuitFactsOf({ ...registered, ...change }, ruleSet, day);

describe("what a job begins with", () => {
  test("is the register as it stood, in the form the log takes", () => {
    expect(facts()).toEqual({
      refrigerant: { state: "identified", refrigerant: "R-410A", safetyClass: "A1", pressureClass: "high" },
      fullChargeKg: 3.2,
      internalVolume: { litres: 12.4, from: "nameplate" },
      lowSideDesignKPaGauge: 1724,
      highSideDesignKPaGauge: 3275,
      lineSet: { lengthM: 15, liquidOuterDiameterMm: 9.53, suctionOuterDiameterMm: 19.05 },
      applianceClass: "appliance",
      appliance: { use: "comfort-cooling", leakRulesApply: false },
    });
  });

  const kinds = [
    ["comfort_cooling", "comfort-cooling"],
    ["commercial_refrigeration", "commercial-refrigeration"],
    ["industrial_process_refrigeration", "industrial-process"],
    ["refrigerated_transport", "transport"],
    ["small_appliance", "other"],
    ["other", "other"],
  ] as const;
  test.each(kinds)("names the use of a %s as %s", (applianceKind, use) => {
    const made = facts({ applianceKind });
    expect(made.appliance.use).toBe(use);
    expect(made.applianceClass).toBe(applianceKind === "small_appliance" ? "small-appliance" : "appliance");
    expect(circuitFacts.safeParse(made).success).toBe(true);
  });

  test("leaves out what is not known instead of guessing it", () => {
    expect(facts({ internalVolumeL: null }).internalVolume).toBeNull();
    expect(facts({ internalVolumeBasis: "unknown" }).internalVolume).toBeNull();
    for (const gap of ["lineLengthM", "liquidLineOdMm", "suctionLineOdMm"])
      expect(facts({ [gap]: null }).lineSet).toBeNull();
    expect(facts({ factoryChargeKg: null }).fullChargeKg).toBeNull();
  });
});

describe("the refrigerant", () => {
  // Safety classes: ASHRAE 34 designations, from memory.
  test.each([
    ["R-410A", "A1"],
    ["R-454B", "A2L"],
    ["R-290", "A3"],
  ])("%s is of class %s", (actualRefrigerant, safetyClass) => {
    const fact = refrigerantFactOf({ refrigerantState: "identified", actualRefrigerant });
    expect(fact).toMatchObject({ state: "identified", safetyClass });
  });

  test("of a mixture or of an unknown name is never taken for a known one", () => {
    expect(refrigerantFactOf({ refrigerantState: "mixed", actualRefrigerant: null })).toMatchObject({
      state: "mixed",
      safetyClass: null,
    });
    for (const actualRefrigerant of [null, "R-9999", "gas"]) {
      expect(refrigerantFactOf({ refrigerantState: "identified", actualRefrigerant })).toEqual({ state: "unknown" });
    }
  });
});

/*
 * Sources: 40 CFR 82.157 (a): appliances with 50 or more pounds of an ozone-depleting refrigerant. 40 CFR 84.106: from 1 January
 * 2026 appliances with 15 or more pounds of a regulated substance or substitute with GWP above 53, residential and light commercial
 * air conditioning and heat pumps left out. From memory; 15 lb = 6.80 kg, 50 lb = 22.68 kg.
 */
describe("leak-rate duties", () => {
  const apply = (change: Partial<RegisteredCircuit>, ruleSet: "us" | "eu" = "us", on = day) =>
    circuitFactsOf({ ...registered, ...change }, ruleSet, on).appliance.leakRulesApply;
  const rack = { applianceKind: "commercial_refrigeration", actualRefrigerant: "R-404A" };

  test("begin at 15 lb of a substance with a high warming potential, from 2026 on", () => {
    expect(apply({ ...rack, factoryChargeKg: 6.9 })).toBe(true);
    expect(apply({ ...rack, factoryChargeKg: 6.7 })).toBe(false);
    expect(apply({ ...rack, factoryChargeKg: 6.9 }, "us", "2025-12-31")).toBe(false);
  });

  test("begin at 50 lb of an ozone-depleting one", () => {
    const hcfc = { ...rack, actualRefrigerant: "R-22" };
    expect(apply({ ...hcfc, factoryChargeKg: 22.7 })).toBe(true);
    expect(apply({ ...hcfc, factoryChargeKg: 22.6 }, "us", "2025-12-31")).toBe(false);
  });

  test("leave out a house's heat pump, an unknown charge, an unknown refrigerant and Europe", () => {
    expect(apply({ factoryChargeKg: 10 })).toBe(false);
    expect(apply({ ...rack, factoryChargeKg: null })).toBe(false);
    expect(apply({ ...rack, actualRefrigerant: "R-9999", factoryChargeKg: 50 })).toBe(false);
    expect(apply({ ...rack, factoryChargeKg: 50 }, "eu")).toBe(false);
  });
});
