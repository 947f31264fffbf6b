import * as z from "zod";
import { AttachmentId, CylinderId, PersonId, ToolId, TraceId } from "@/lib/ids";
import { nonNegative, positive, safetyClass, text } from "./circuit-schema";

const instant = z.iso.datetime();
const day = z.iso.date();
const digest = z.string().regex(/^[0-9a-f]{64}$/);
const note = text(2000).nullable();

/** A photo or signature by its salted hash, so that the picture can be erased and the log stays whole. */
export const attachment = z.strictObject({ attachment: AttachmentId, saltedDigest: digest });
/** What a photo shows, where that is more than the step: the joint it was taken of. */
const photos = z.array(attachment.extend({ shows: text(120).exactOptional() })).max(50);

const tool = { toolId: ToolId.nullable(), label: text(120) };
const calibration = { calibrationDueOn: day.nullable() };
export const readingSource = z.enum(["typed", "file", "http", "bluetooth"]);

/** An instrument that wrote by itself names itself; a second one linked meanwhile shows whether the first can be believed. */
const heard = {
  radioName: text(120).exactOptional(),
  comparedWith: z
    .strictObject({ radioName: text(120), micron: nonNegative, ownMicron: nonNegative, at: instant })
    .exactOptional(),
};
const vacuumGauge = z.strictObject({
  ...tool,
  ...calibration,
  ...heard,
  location: z.enum(["system", "pump"]),
  resolutionMicron: positive,
  accuracyPercent: nonNegative,
});
const pressureGauge = z.strictObject({
  ...tool,
  ...calibration,
  resolutionKPa: positive,
  accuracyPercent: nonNegative,
});
const scale = z.strictObject({ ...tool, ...calibration, resolutionKg: positive });

/** Gross masses on the scale before and after; the difference is what went in or came out. */
const weighing = z.strictObject({
  cylinderId: CylinderId.nullable(),
  label: text(120),
  refrigerant: text(40).nullable(),
  grossBeforeKg: nonNegative,
  grossAfterKg: nonNegative,
});

/** A recovery cylinder with what is stamped on it, as read; without the stamp its fill cannot be judged. */
const recoveryWeighing = weighing.extend({
  stamp: z
    .strictObject({
      waterCapacityKg: positive,
      tareKg: positive,
      requalifiedMonth: z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/),
      disposable: z.boolean(),
      damaged: z.boolean(),
      markedForFlammables: z.boolean(),
    })
    .nullable(),
});

/** Points at one trace: the samples are stored apart, in chunks, and are never superseded. */
export const traceReference = z.strictObject({
  traceId: TraceId,
  sampleCount: z.int().positive(),
  digest,
});
export const vacuumReading = z.strictObject({
  s: nonNegative,
  micron: nonNegative.max(800_000),
  temperatureC: z.number().min(-60).max(120).exactOptional(),
});
export const pressureReading = z.strictObject({
  s: nonNegative,
  kPaGauge: z.number().min(-110).max(20_000),
  temperatureC: z.number().min(-60).max(120),
});
const readings = <R extends z.ZodType<{ s: number }>>(reading: R) =>
  z.discriminatedUnion("kept", [
    z.strictObject({
      kept: z.literal("inline"),
      readings: z
        .array(reading)
        .max(500)
        .refine((all) => all.every((one, index) => index === 0 || one.s >= (all[index - 1]?.s ?? 0)), {
          error: "time runs backwards",
        }),
    }),
    z.strictObject({ kept: z.literal("trace"), trace: traceReference }),
  ]);

/** What the device judged at the time, kept beside what is judged later. */
const deviceVerdict = z.strictObject({ verdict: text(40), rulesVersion: text(40) }).nullable();

export const makeSafeEvidence = z.strictObject({
  lockedOut: z.boolean(),
  lockedOutBy: text(120).nullable(),
  provenDead: z.boolean(),
  storedEnergyDischarged: z.boolean(),
  ventilated: z.boolean(),
  ignitionSourcesControlled: z.boolean(),
  refrigerantIdentified: z.boolean(),
  designPressuresRead: z.boolean(),
  flammable: z
    .strictObject({
      detectorOn: z.boolean(),
      detector: text(120).nullable(),
      zoneMarked: z.boolean(),
      ignitionSourcesRemoved: z.boolean(),
      extinguisherAtHand: z.boolean(),
    })
    .nullable(),
  photos,
  note,
});

/** A case the recovery rule itself provides for, with what it asks to be shown; not an override. */
export const recoveryAlternative = z.discriminatedUnion("code", [
  z.strictObject({
    code: z.literal("level-unattainable"),
    because: z.enum(["leak", "contamination"]),
    evidence: text(500),
    soundPartsIsolated: z.enum(["yes", "not-possible", "no"]),
  }),
  z.strictObject({ code: z.literal("found-at-atmosphere"), foundGaugeKPa: z.number(), evidence: text(500) }),
  z.strictObject({ code: z.literal("isolated-part"), isolatedBy: text(500) }),
  z.strictObject({
    code: z.literal("non-major-repair"),
    majorPartRemoved: z.boolean(),
    evacuatedAfterwards: z.boolean(),
    repair: text(500),
  }),
]);

export const recoverEvidence = z.strictObject({
  method: z.enum(["recovery-machine", "pump-down", "passive"]),
  machine: z
    .strictObject({
      ...tool,
      dateClass: z.enum(["before-1993-11-15", "on-or-after-1993-11-15"]),
      ratedForFlammables: z.boolean().nullable(),
    })
    .nullable(),
  finalGaugeKPa: z.number().min(-110),
  atmosphericKPa: z.number().min(60).max(110),
  /** The gauge again after waiting: liquid or oil still boiling off shows as a rise. */
  waitedMinutes: nonNegative,
  afterWaitGaugeKPa: z.number().min(-110),
  cylinders: z.array(recoveryWeighing).max(40),
  compressorWorking: z.boolean().nullable(),
  alternative: recoveryAlternative.nullable(),
  flammable: z.strictObject({ cylinderGrounded: z.boolean(), machineRatedForClass: z.boolean() }).nullable(),
  photos,
  note,
});

export const openRepairEvidence = z.strictObject({
  openedAt: instant,
  closedAt: instant,
  work: text(2000),
  majorRepair: z.boolean(),
  parts: z.array(z.strictObject({ name: text(200), serial: text(80).nullable() })).max(50),
  /** Every joint touched; the leak check must name each of them. */
  joints: z.array(text(120)).max(100),
  brazing: z.enum(["nitrogen-flowing", "without-nitrogen", "not-brazed"]),
  openEndsCapped: z.boolean(),
  newDrier: z.enum(["liquid", "liquid-and-suction", "none"]),
  contamination: z.enum(["none", "moisture", "burn-out"]),
  acidTest: z.enum(["clean", "acid", "not-done"]),
  flammable: z
    .strictObject({ purgedBeforeFlame: z.boolean(), lflPercentBeforeFlame: z.number().min(0).max(100).nullable() })
    .nullable(),
  photos,
  note,
});

export const pressureTestEvidence = z.strictObject({
  gas: z.enum(["nitrogen", "nitrogen-with-trace", "air", "oxygen", "other"]),
  gauge: pressureGauge,
  atmosphericKPa: z.number().min(60).max(110),
  temperatureAccuracyC: nonNegative,
  internalVolumeL: positive,
  lowSideConnected: z.boolean(),
  raisedInSteps: z.boolean(),
  cylinderDisconnected: z.boolean(),
  source: readingSource,
  record: readings(pressureReading),
  deviceVerdict,
  photos,
  note,
});

export const leakCheckEvidence = z.strictObject({
  checkedAtGaugeKPa: z.number(),
  joints: z
    .array(
      z.strictObject({
        joint: text(120),
        method: z.enum(["bubbles", "electronic", "ultrasonic", "other"]),
        instrument: text(120),
        sensitivityGramPerYear: positive.nullable(),
        result: z.enum(["tight", "leaking", "not-reached"]),
      }),
    )
    .max(200),
  photos,
  note,
});

export const evacuateEvidence = z.strictObject({
  startedAt: instant,
  endedAt: instant,
  record: readings(vacuumReading),
  source: readingSource,
  coresOut: z.boolean(),
  hoses: z.strictObject({ innerDiameterMm: positive, lengthM: positive, count: z.int().positive() }).nullable(),
  gauge: vacuumGauge,
  pump: z.strictObject({ ...tool, litresPerSecond: positive.nullable(), ultimateMicron: positive.nullable() }),
  oil: z.enum(["fresh", "clear", "cloudy", "dark", "not-looked"]),
  /** When the pump got new oil on this job; the tool's hours begin anew with it. */
  oilChangedAt: instant.exactOptional(),
  blankOffMicron: positive.nullable(),
  /** Each pull that was broken again before the last one, in order. */
  sweeps: z
    .array(
      z.strictObject({
        pulledToMicron: positive,
        brokenWith: z.enum(["nitrogen", "air", "other"]),
        brokenToKPaAbs: positive,
        heldMinutes: nonNegative,
      }),
    )
    .max(20),
  flammable: z.strictObject({ pumpSuitedOrExhaustVented: z.boolean() }).nullable(),
  photos,
  note,
});

export const holdEvidence = z.strictObject({
  internalVolumeL: positive,
  wallTemperatureC: z.number().min(-60).max(120),
  gauge: vacuumGauge,
  pumpIsolated: z.boolean(),
  source: readingSource,
  record: readings(vacuumReading),
  deviceVerdict,
  photos,
  note,
});

export const chargeEvidence = z.strictObject({
  brokenWith: z.enum(["refrigerant-vapour", "metered-liquid", "factory-charge", "own-receiver", "nitrogen", "air"]),
  compressorOffUnderVacuum: z.boolean(),
  basis: z.discriminatedUnion("by", [
    z.strictObject({ by: z.literal("nameplate"), chargeKg: positive }),
    z.strictObject({
      by: z.literal("factory-and-line-set"),
      factoryChargeKg: positive,
      /** True when the factory charge was in the unit already and only the adjustment is weighed. */
      factoryChargeInUnit: z.boolean(),
      lineLengthM: nonNegative,
      lineRateKgPerM: nonNegative,
      factoryLineAllowanceKg: nonNegative,
      adders: z.array(z.strictObject({ what: text(120), addKg: z.number() })).max(20),
    }),
    z.strictObject({ by: z.literal("replace-removed"), removedKg: nonNegative }),
  ]),
  /** Net mass into the circuit by this entry as weighed; negative when it was taken out. */
  weighedInKg: z.number(),
  cylinders: z.array(weighing).max(40),
  scale,
  flammable: z
    .strictObject({
      roomAreaM2: positive.nullable(),
      mountingHeight: z.enum(["floor", "window", "wall", "ceiling"]).nullable(),
      chargeLimitKg: positive,
      chargeLimitFrom: text(300),
      scaleGrounded: z.boolean(),
      hosesPurged: z.boolean(),
    })
    .nullable(),
  photos,
  note,
});

export const closeEvidence = z.strictObject({
  coresIn: z.boolean(),
  capsWithSealsFitted: z.boolean(),
  capsTightened: z.boolean(),
  portLeakCheck: z.strictObject({
    method: z.enum(["bubbles", "electronic", "ultrasonic", "other"]),
    instrument: text(120),
    result: z.enum(["tight", "leaking", "not-done"]),
  }),
  photos,
  note,
});

export const performanceEvidence = z.strictObject({
  ranMinutes: nonNegative,
  atmosphericKPa: z.number().min(60).max(110),
  outdoorDryBulbC: z.number().min(-60).max(70),
  indoorDryBulbC: z.number().min(-60).max(70).nullable(),
  indoorWetBulbC: z.number().min(-60).max(70).nullable(),
  returnAirC: z.number().min(-60).max(70).nullable(),
  supplyAirC: z.number().min(-60).max(70).nullable(),
  suction: z.strictObject({ kPaGauge: z.number(), lineTemperatureC: z.number() }).nullable(),
  liquid: z.strictObject({ kPaGauge: z.number(), lineTemperatureC: z.number() }).nullable(),
  metering: z.enum(["fixed-orifice", "expansion-valve", "capillary", "other"]),
  targetSuperheatK: z.number().nullable(),
  targetSubcoolingK: z.number().nullable(),
  compressorCurrentA: nonNegative.nullable(),
  ratedCurrentA: positive.nullable(),
  photos,
  note,
});

export const recordsEvidence = z.strictObject({
  signedBy: PersonId,
  signedByCertificate: text(120).nullable(),
  customerSignature: attachment.nullable(),
  customerAbsent: z.boolean(),
  labelAttached: z.boolean(),
  /** Asked where leak-rate duties apply to the circuit: when both verification tests are made or due. */
  verification: z.strictObject({ initialTestOn: day, initialTestPassed: z.boolean(), followUpDueBy: day }).nullable(),
  /** After a burn-out: when acid and moisture are looked at again. */
  recheckDueBy: day.nullable(),
  flammable: z.strictObject({ labelClass: safetyClass, competence: text(200) }).nullable(),
  note,
});
