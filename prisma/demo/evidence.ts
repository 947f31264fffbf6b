import type { EntryContent, EvidenceOf, StepId, VacuumReading } from "@/lib/hvac/procedure";
import type { PersonId } from "@/lib/ids";

// Invented evidence of a compressor change and the like, as a tablet writes it.

const minuteMs = 60_000;

export function step<S extends StepId>(name: S, evidence: EvidenceOf<S>): EntryContent {
  return { kind: "step-recorded", body: { step: name, evidence } } as unknown as EntryContent;
}

const tool = { toolId: null, calibrationDueOn: "2027-06-01" };
const vacuumGauge = {
  ...tool,
  label: "Micron gauge 1",
  location: "system",
  resolutionMicron: 1,
  accuracyPercent: 5,
} as const;
const extras = { photos: [], note: null };
const joints = ["suction stub", "discharge stub", "liquid line drier"];

/** The steps of a compressor change on an R-410A split, all sound, up to the evacuation. */
export function upToEvacuation(on: Date): EntryContent[] {
  const at = (minutes: number) => new Date(on.getTime() + minutes * minuteMs).toISOString();
  return [
    step("make_safe", {
      lockedOut: true,
      lockedOutBy: "Tomas Reedley",
      provenDead: true,
      storedEnergyDischarged: true,
      ventilated: true,
      ignitionSourcesControlled: true,
      refrigerantIdentified: true,
      designPressuresRead: true,
      flammable: null,
      ...extras,
    }),
    step("recover", {
      method: "recovery-machine",
      machine: {
        toolId: null,
        label: "Recovery machine 1",
        dateClass: "on-or-after-1993-11-15",
        ratedForFlammables: true,
      },
      finalGaugeKPa: -6,
      atmosphericKPa: 99.8,
      waitedMinutes: 10,
      afterWaitGaugeKPa: -4,
      cylinders: [
        {
          cylinderId: null,
          label: "R-17",
          refrigerant: "R-410A",
          grossBeforeKg: 13.75,
          grossAfterKg: 17,
          stamp: {
            waterCapacityKg: 21.6,
            tareKg: 12.9,
            requalifiedMonth: "2023-04",
            disposable: false,
            damaged: false,
            markedForFlammables: false,
          },
        },
      ],
      compressorWorking: null,
      alternative: null,
      flammable: null,
      ...extras,
    }),
    step("open_repair", {
      openedAt: at(40),
      closedAt: at(110),
      work: "Compressor changed",
      majorRepair: true,
      parts: [
        { name: "Compressor", serial: "INV-778" },
        { name: "Liquid line drier", serial: null },
      ],
      joints,
      brazing: "nitrogen-flowing",
      openEndsCapped: true,
      newDrier: "liquid",
      contamination: "none",
      acidTest: "clean",
      flammable: null,
      ...extras,
    }),
    step("pressure_test", {
      gas: "nitrogen",
      gauge: { ...tool, label: "Test gauge 1", resolutionKPa: 1, accuracyPercent: 0.5 },
      atmosphericKPa: 99.8,
      temperatureAccuracyC: 0.5,
      internalVolumeL: 12.4,
      lowSideConnected: true,
      raisedInSteps: true,
      cylinderDisconnected: true,
      source: "typed",
      record: {
        kept: "inline",
        readings: Array.from({ length: 121 }, (_, index) => ({
          s: index * 120,
          kPaGauge: Math.round(1610 + 5.9 * driftC(index * 2)),
          temperatureC: Number((22 + driftC(index * 2)).toFixed(1)),
        })),
      },
      deviceVerdict: null,
      ...extras,
    }),
    step("leak_check", {
      checkedAtGaugeKPa: 1610,
      joints: joints.map((joint) => ({
        joint,
        method: "electronic" as const,
        instrument: "Detector 1",
        sensitivityGramPerYear: 3,
        result: "tight" as const,
      })),
      ...extras,
    }),
    step("evacuate", {
      startedAt: at(150),
      endedAt: at(190),
      record: {
        kept: "inline",
        readings: Array.from({ length: 41 }, (_, minute) => ({
          s: minute * 60,
          micron: Math.round(270 + 759_000 * Math.exp(-minute / 2.1)),
        })),
      },
      source: "typed",
      coresOut: true,
      hoses: { innerDiameterMm: 12.7, lengthM: 1.5, count: 2 },
      gauge: vacuumGauge,
      pump: { toolId: null, label: "Pump 1, two-stage", litresPerSecond: 2.8, ultimateMicron: 25 },
      oil: "clear",
      blankOffMicron: 40,
      sweeps: [],
      flammable: null,
      ...extras,
    }),
  ];
}

/** A slow change of the air over the test, in kelvin. */
const driftC = (minute: number) => 0.3 * Math.sin(minute / 40);

/** A hold of this many readings five seconds apart that rises from `from` by `rise` and levels off. */
export function hold(count: number, from: number, rise: number, tauS: number): EntryContent {
  const readings: VacuumReading[] = Array.from({ length: count }, (_, index) => {
    const s = index * 5;
    return {
      s,
      temperatureC: 21,
      micron: Math.round(from + rise * (1 - Math.exp(-s / tauS)) + 1.5 * Math.sin(index * 1.7)),
    };
  });
  return step("hold", {
    internalVolumeL: 12.4,
    wallTemperatureC: 21,
    gauge: vacuumGauge,
    pumpIsolated: true,
    source: "file",
    record: { kept: "inline", readings },
    deviceVerdict: null,
    ...extras,
  });
}

/** From the broken vacuum to the signature. */
export function afterHold(person: PersonId): (EntryContent | "close")[] {
  return [
    step("break_and_charge", {
      brokenWith: "metered-liquid",
      compressorOffUnderVacuum: true,
      basis: { by: "nameplate", chargeKg: 3.4 },
      weighedInKg: 3.4,
      cylinders: [],
      scale: { ...tool, label: "Charging scale 1", resolutionKg: 0.005 },
      flammable: null,
      ...extras,
    }),
    step("close", {
      coresIn: true,
      capsWithSealsFitted: true,
      capsTightened: true,
      portLeakCheck: { method: "electronic", instrument: "Detector 1", result: "tight" },
      ...extras,
    }),
    step("performance", {
      ranMinutes: 20,
      atmosphericKPa: 99.8,
      outdoorDryBulbC: 28,
      indoorDryBulbC: 25,
      indoorWetBulbC: 18,
      returnAirC: 25,
      supplyAirC: 14,
      suction: { kPaGauge: 860, lineTemperatureC: 11.5 },
      liquid: { kPaGauge: 2480, lineTemperatureC: 36 },
      metering: "expansion-valve",
      targetSuperheatK: null,
      targetSubcoolingK: null,
      compressorCurrentA: 8.2,
      ratedCurrentA: 10,
      ...extras,
    }),
    step("records", {
      signedBy: person,
      signedByCertificate: "INV-4471",
      customerSignature: null,
      customerAbsent: true,
      labelAttached: true,
      verification: null,
      recheckDueBy: null,
      flammable: null,
      note: null,
    }),
    "close",
  ];
}
