import * as z from "zod";
import { JOB_KINDS } from "./step";

export const text = (max: number) => z.string().min(1).max(max);
export const positive = z.number().positive();
export const nonNegative = z.number().nonnegative();

export const safetyClass = z.enum(["A1", "A2L", "A2", "A3", "B1", "B2L", "B2", "B3"]);
/** By 40 CFR 82.152; an explicit field because trade lists and the rule's limits differ for some refrigerants. */
export const pressureClass = z.enum(["low", "medium", "high", "very-high"]);

/** What is in the circuit: a known refrigerant, a mixture, or not known yet. */
export const refrigerantFact = z.discriminatedUnion("state", [
  z.strictObject({ state: z.literal("identified"), refrigerant: text(40), safetyClass, pressureClass }),
  z.strictObject({
    state: z.literal("mixed"),
    safetyClass: safetyClass.nullable(),
    pressureClass: pressureClass.nullable(),
    note: text(500),
  }),
  z.strictObject({ state: z.literal("unknown") }),
]);

/** The circuit as it stood in the register when the job was opened; null is "not known". */
export const circuitFacts = z.strictObject({
  refrigerant: refrigerantFact,
  fullChargeKg: positive.nullable(),
  internalVolume: z.strictObject({ litres: positive, from: z.enum(["nameplate", "measured", "estimated"]) }).nullable(),
  lowSideDesignKPaGauge: positive.nullable(),
  highSideDesignKPaGauge: positive.nullable(),
  lineSet: z
    .strictObject({ lengthM: nonNegative, liquidOuterDiameterMm: positive, suctionOuterDiameterMm: positive })
    .nullable(),
  /** The row of the recovery rule the unit falls under. */
  applianceClass: z.enum(["appliance", "small-appliance", "mvac-like"]),
  appliance: z.strictObject({
    use: z.enum(["comfort-cooling", "commercial-refrigeration", "industrial-process", "transport", "other"]),
    /** Whether leak-rate duties and verification tests of the rule in force apply to this circuit. */
    leakRulesApply: z.boolean(),
  }),
});

export const jobKind = z.enum([...JOB_KINDS, "unknown"]);
