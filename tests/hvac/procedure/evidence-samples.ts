import type { CircuitFacts, EvidenceOf, StepRecord } from "@/lib/hvac/log/entry";
import type { StepId } from "@/lib/hvac/log/step";
import type { PersonId } from "@/lib/ids";

const at = (minute: number) => new Date(Date.UTC(2026, 10, 25, 8, minute)).toISOString();
export const technician = "11111111-1111-4111-8111-111111111111" as PersonId;
export const supervisor = "22222222-2222-4222-8222-222222222222" as PersonId;

export const circuit: CircuitFacts = {
  refrigerant: { state: "identified", refrigerant: "R-410A", safetyClass: "A1", pressureClass: "high" },
  fullChargeKg: 3.2,
  internalVolume: { litres: 12.4, from: "estimated" },
  lowSideDesignKPaGauge: 3100,
  highSideDesignKPaGauge: 4150,
  lineSet: { lengthM: 15, liquidOuterDiameterMm: 9.5, suctionOuterDiameterMm: 19 },
  applianceClass: "appliance",
  appliance: { use: "comfort-cooling", leakRulesApply: false },
};
export const flammableCircuit: CircuitFacts = {
  ...circuit,
  refrigerant: { state: "identified", refrigerant: "R-454B", safetyClass: "A2L", pressureClass: "high" },
};

const tool = { toolId: null, label: "shop tool", calibrationDueOn: "2027-06-01" };
const vacuumGauge = { ...tool, location: "system", resolutionMicron: 1, accuracyPercent: 5 } as const;
const extras = { photos: [], note: null };

/** Evidence that settles each step of an ordinary job. */
export const complete: { readonly [S in StepId]: EvidenceOf<S> } = {
  make_safe: {
    lockedOut: true,
    lockedOutBy: "R. Example",
    provenDead: true,
    storedEnergyDischarged: true,
    ventilated: true,
    ignitionSourcesControlled: true,
    refrigerantIdentified: true,
    designPressuresRead: true,
    flammable: null,
    ...extras,
  },
  recover: {
    method: "recovery-machine",
    machine: { toolId: null, label: "machine", dateClass: "on-or-after-1993-11-15", ratedForFlammables: true },
    finalGaugeKPa: -5,
    atmosphericKPa: 101.325,
    waitedMinutes: 10,
    afterWaitGaugeKPa: -3,
    cylinders: [
      { cylinderId: null, label: "C1", refrigerant: "R-410A", grossBeforeKg: 15, grossAfterKg: 18.1, stamp: null },
    ],
    compressorWorking: null,
    alternative: null,
    flammable: null,
    ...extras,
  },
  open_repair: {
    openedAt: at(30),
    closedAt: at(90),
    work: "Compressor changed",
    majorRepair: true,
    parts: [{ name: "Compressor", serial: null }],
    joints: ["suction stub", "discharge stub"],
    brazing: "nitrogen-flowing",
    openEndsCapped: true,
    newDrier: "liquid",
    contamination: "none",
    acidTest: "clean",
    flammable: null,
    ...extras,
  },
  pressure_test: {
    gas: "nitrogen",
    gauge: { ...tool, resolutionKPa: 1, accuracyPercent: 0.5 },
    atmosphericKPa: 101.325,
    temperatureAccuracyC: 0.5,
    internalVolumeL: 12.4,
    lowSideConnected: true,
    raisedInSteps: true,
    cylinderDisconnected: true,
    source: "typed",
    record: {
      kept: "inline",
      readings: [
        { s: 0, kPaGauge: 2850, temperatureC: 20 },
        { s: 900, kPaGauge: 2850, temperatureC: 20 },
        { s: 1800, kPaGauge: 2850, temperatureC: 20 },
      ],
    },
    deviceVerdict: null,
    ...extras,
  },
  leak_check: {
    checkedAtGaugeKPa: 2850,
    joints: ["suction stub", "discharge stub"].map((joint) => ({
      joint,
      method: "electronic" as const,
      instrument: "detector",
      sensitivityGramPerYear: 3,
      result: "tight" as const,
    })),
    ...extras,
  },
  evacuate: {
    startedAt: at(120),
    endedAt: at(180),
    record: {
      kept: "inline",
      readings: [
        { s: 0, micron: 700_000 },
        { s: 3600, micron: 310 },
      ],
    },
    source: "typed",
    coresOut: true,
    hoses: { innerDiameterMm: 9.5, lengthM: 1.5, count: 2 },
    gauge: vacuumGauge,
    pump: { toolId: null, label: "pump", litresPerSecond: 2.4, ultimateMicron: 15 },
    oil: "clear",
    blankOffMicron: 40,
    sweeps: [],
    flammable: null,
    ...extras,
  },
  hold: {
    internalVolumeL: 12.4,
    wallTemperatureC: 21,
    gauge: vacuumGauge,
    pumpIsolated: true,
    source: "typed",
    record: {
      kept: "inline",
      readings: [
        { s: 0, micron: 310 },
        { s: 300, micron: 320 },
        { s: 600, micron: 322 },
      ],
    },
    deviceVerdict: null,
    ...extras,
  },
  break_and_charge: {
    brokenWith: "metered-liquid",
    compressorOffUnderVacuum: true,
    basis: { by: "nameplate", chargeKg: 3.2 },
    weighedInKg: 3.2,
    cylinders: [],
    scale: { ...tool, resolutionKg: 0.005 },
    flammable: null,
    ...extras,
  },
  close: {
    coresIn: true,
    capsWithSealsFitted: true,
    capsTightened: true,
    portLeakCheck: { method: "electronic", instrument: "detector", result: "tight" },
    ...extras,
  },
  performance: {
    ranMinutes: 20,
    atmosphericKPa: 101.325,
    outdoorDryBulbC: 28,
    indoorDryBulbC: 25,
    indoorWetBulbC: 18,
    returnAirC: 25,
    supplyAirC: 14,
    suction: null,
    liquid: null,
    metering: "expansion-valve",
    targetSuperheatK: null,
    targetSubcoolingK: null,
    compressorCurrentA: 8,
    ratedCurrentA: 10,
    ...extras,
  },
  records: {
    signedBy: technician,
    signedByCertificate: "U-0001",
    customerSignature: null,
    customerAbsent: true,
    labelAttached: true,
    verification: null,
    recheckDueBy: null,
    flammable: null,
    note: null,
  },
};

/** A record of a step, complete but for what is said otherwise. */
export function recordOf<S extends StepId>(step: S, change: Partial<EvidenceOf<S>> = {}): StepRecord {
  return { step, evidence: { ...complete[step], ...change } } as unknown as StepRecord;
}
