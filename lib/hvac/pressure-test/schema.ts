import { z } from "zod";
import { celsiusToKelvin, fromPa, toPa } from "../units";
import { knownDesignation } from "../wire/answer";
import { recordSecond, refuseTimes } from "../wire/record-time";
import type { PressureTestJudgement, PressureTestRecord } from "./record";

const SECONDS_PER_HOUR = 3600;

const reading = z.strictObject({
  s: recordSecond,
  kPaGauge: z.number().max(100_000),
  temperatureC: z.number().min(-60).max(90),
});

const wireFields = z.strictObject({
  id: z.union([z.string(), z.number()]),
  internalVolumeL: z.number().positive().max(1e6),
  atmosphericKPa: z.number().min(40).max(115),
  maxTestKPaGauge: z.number().positive().max(100_000),
  gas: z.literal("nitrogen"),
  refrigerant: knownDesignation,
  gauge: z.strictObject({
    resolutionKPa: z.number().nonnegative().max(1000),
    accuracyPercent: z.number().nonnegative().max(100),
  }),
  temperatureAccuracyC: z.number().nonnegative().max(50),
  criteria: z.strictObject({
    testPressureKPaGauge: z.number().positive().max(100_000),
    holdMinutes: z.number().nonnegative().max(100_000),
    maxLeakKPaPerHour: z.number().nonnegative().max(100_000),
  }),
  readings: z.array(reading),
});

/** A standing nitrogen test as it is sent: units in the names, gauge pressure as on the dial. */
export const pressureTestWire = wireFields.superRefine((wire, context) => {
  if (refuseTimes(wire.readings, context)) return;
  for (const [index, { kPaGauge }] of wire.readings.entries()) {
    if (kPaGauge + wire.atmosphericKPa < 0) {
      const path = ["readings", index, "kPaGauge"];
      const message = "the absolute pressure would be negative";
      context.addIssue({ code: "custom", path, message, params: { code: "out-of-range" } });
      return;
    }
  }
});
export type PressureTestWire = z.infer<typeof pressureTestWire>;

/** The same test as the domain knows it. */
export function pressureTestFromWire(wire: PressureTestWire): PressureTestRecord {
  const { gauge, criteria } = wire;
  return {
    internalVolumeM3: wire.internalVolumeL / 1000,
    atmosphericPa: toPa(wire.atmosphericKPa, "kPa"),
    maxTestGaugePa: toPa(wire.maxTestKPaGauge, "kPa"),
    refrigerant: wire.refrigerant,
    gauge: { resolutionPa: toPa(gauge.resolutionKPa, "kPa"), accuracyFraction: gauge.accuracyPercent / 100 },
    temperatureAccuracyK: wire.temperatureAccuracyC,
    criteria: {
      testGaugePa: toPa(criteria.testPressureKPaGauge, "kPa"),
      holdS: criteria.holdMinutes * 60,
      maxLeakPaPerS: toPa(criteria.maxLeakKPaPerHour, "kPa") / SECONDS_PER_HOUR,
    },
    readings: wire.readings.map(({ s, kPaGauge, temperatureC }) => ({
      atS: s,
      gaugePa: toPa(kPaGauge, "kPa"),
      temperatureK: celsiusToKelvin(temperatureC),
    })),
  };
}

/** The judgement as it is sent back; numbers that cannot be given are left out. */
export function pressureTestToWire(id: PressureTestWire["id"], judgement: PressureTestJudgement) {
  const { verdict, reasons, leak, compensatedChangePa } = judgement;
  const perHourKPa = (paPerS: number) => fromPa(paPerS * SECONDS_PER_HOUR, "kPa");
  return {
    id,
    verdict,
    reasons,
    ...(leak && {
      leak: {
        kPaPerHour: perHourKPa(leak.paPerS),
        interval95KPaPerHour: [perHourKPa(leak.interval95PaPerS[0]), perHourKPa(leak.interval95PaPerS[1])] as const,
        pascalLitrePerSecond: leak.throughputPaM3PerS * 1000,
      },
    }),
    ...(compensatedChangePa !== null && { compensatedChangeKPa: fromPa(compensatedChangePa, "kPa") }),
  };
}
