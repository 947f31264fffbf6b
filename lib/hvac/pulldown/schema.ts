import { z } from "zod";
import { celsiusToKelvin, micronToPa } from "../units";
import { recordSecond, refuseTimes } from "../wire/record-time";
import type { PulldownJudgement, PulldownRecord } from "./record";

const ATMOSPHERE_MICRON = 760_000;

const wireFields = z.strictObject({
  id: z.union([z.string(), z.number()]),
  internalVolumeL: z.number().positive().max(1e6),
  wallTemperatureC: z.number().min(-60).max(90),
  pump: z.strictObject({
    litresPerSecond: z.number().positive().max(1000),
    ultimateMicron: z.number().nonnegative().max(ATMOSPHERE_MICRON),
  }),
  valveCoresRemoved: z.boolean(),
  hoses: z.strictObject({
    innerDiameterMm: z.number().positive().max(1000),
    lengthM: z.number().positive().max(1000),
    count: z.number().int().positive().max(100),
  }),
  gauge: z.strictObject({
    location: z.enum(["system", "pump"]),
    resolutionMicron: z.number().nonnegative().max(ATMOSPHERE_MICRON),
    accuracyPercent: z.number().nonnegative().max(100),
  }),
  targetMicron: z.number().positive().max(ATMOSPHERE_MICRON),
  readings: z.array(z.strictObject({ s: recordSecond, micron: z.number().nonnegative() })),
});

/** An evacuation under way as it is sent: microns as the gauge shows them. */
export const pulldownWire = wireFields.superRefine((wire, context) => {
  const { resolutionMicron, accuracyPercent } = wire.gauge;
  const highest = ATMOSPHERE_MICRON * (1 + accuracyPercent / 100) + resolutionMicron;
  if (refuseTimes(wire.readings, context)) return;
  for (const [index, { micron }] of wire.readings.entries()) {
    if (micron > highest) {
      const path = ["readings", index, "micron"];
      const message = "above the atmosphere and the gauge's tolerance";
      context.addIssue({ code: "custom", path, message, params: { code: "out-of-range" } });
      return;
    }
  }
});
export type PulldownWire = z.infer<typeof pulldownWire>;

/** The same evacuation as the domain knows it. */
export function pulldownFromWire(wire: PulldownWire): PulldownRecord {
  const { pump, hoses, gauge } = wire;
  return {
    internalVolumeM3: wire.internalVolumeL / 1000,
    wallTemperatureK: celsiusToKelvin(wire.wallTemperatureC),
    pump: { speedM3PerS: pump.litresPerSecond / 1000, ultimateAbsPa: micronToPa(pump.ultimateMicron) },
    valveCoresRemoved: wire.valveCoresRemoved,
    hoses: { innerDiameterM: hoses.innerDiameterMm / 1000, lengthM: hoses.lengthM, count: hoses.count },
    gauge: {
      location: gauge.location,
      resolutionPa: micronToPa(gauge.resolutionMicron),
      accuracyFraction: gauge.accuracyPercent / 100,
    },
    targetAbsPa: micronToPa(wire.targetMicron),
    readings: wire.readings.map(({ s, micron }) => ({ atS: s, pressureAbsPa: micronToPa(micron) })),
  };
}

/** The judgement as it is sent back. */
export function pulldownToWire(id: PulldownWire["id"], judgement: PulldownJudgement) {
  const { etaToTargetS, interval80S, finding, reasons, effectiveLitresPerSecond } = judgement;
  return { id, etaToTargetS, ...(interval80S && { interval80S }), finding, reasons, effectiveLitresPerSecond };
}
