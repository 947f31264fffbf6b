import { z } from "zod";
import { celsiusToKelvin, micronToPa, paToMicron } from "../units";
import { knownDesignation } from "../wire/answer";
import { recordSecond, refuseTimes } from "../wire/record-time";
import type { HoldJudgement } from "./judgement";
import type { HoldReading, HoldRecord } from "./record";

const ATMOSPHERE_MICRON = 760_000;
const SECONDS_PER_MINUTE = 60;

const reading = z.strictObject({
  s: recordSecond,
  micron: z.number().nonnegative(),
  temperatureC: z.number().min(-80).max(150).optional(),
});

const wireFields = z.strictObject({
  id: z.union([z.string(), z.number()]),
  internalVolumeL: z.number().positive().max(1e6),
  wallTemperatureC: z.number().min(-80).max(150),
  refrigerant: knownDesignation,
  gauge: z.strictObject({
    location: z.enum(["system", "pump"]),
    resolutionMicron: z.number().nonnegative().max(ATMOSPHERE_MICRON),
    accuracyPercent: z.number().nonnegative().max(100),
  }),
  criteria: z.strictObject({
    targetMicron: z.number().positive().max(ATMOSPHERE_MICRON),
    holdMinutes: z.number().positive().max(100_000),
    maxFinalMicron: z.number().positive().max(ATMOSPHERE_MICRON),
    maxSteadyRiseMicronPerMin: z.number().positive().max(ATMOSPHERE_MICRON),
  }),
  readings: z.array(reading),
});

/** An isolated hold as it is sent: units in the names, absolute pressure in micron. */
export const holdWire = wireFields.superRefine((wire, context) => {
  const { resolutionMicron, accuracyPercent } = wire.gauge;
  const highestMicron = ATMOSPHERE_MICRON * (1 + accuracyPercent / 100) + resolutionMicron;
  if (refuseTimes(wire.readings, context)) return;
  for (const [index, { micron }] of wire.readings.entries()) {
    if (micron > highestMicron) {
      const path = ["readings", index, "micron"];
      const message = "above one atmosphere and the gauge's tolerance";
      context.addIssue({ code: "custom", path, message, params: { code: "out-of-range" } });
      return;
    }
  }
});
export type HoldWire = z.infer<typeof holdWire>;

/** The same hold as the domain knows it. */
export function holdFromWire(wire: HoldWire): HoldRecord {
  const { gauge, criteria } = wire;
  return {
    internalVolumeM3: wire.internalVolumeL / 1000,
    wallTemperatureK: celsiusToKelvin(wire.wallTemperatureC),
    refrigerant: wire.refrigerant,
    gauge: {
      location: gauge.location,
      resolutionPa: micronToPa(gauge.resolutionMicron),
      accuracyFraction: gauge.accuracyPercent / 100,
    },
    criteria: {
      targetPa: micronToPa(criteria.targetMicron),
      holdS: criteria.holdMinutes * SECONDS_PER_MINUTE,
      maxFinalPa: micronToPa(criteria.maxFinalMicron),
      maxSteadyRisePaPerS: micronToPa(criteria.maxSteadyRiseMicronPerMin) / SECONDS_PER_MINUTE,
    },
    readings: wire.readings.map(
      ({ s, micron, temperatureC }): HoldReading => ({
        atS: s,
        pressureAbsPa: micronToPa(micron),
        ...(temperatureC !== undefined && { temperatureK: celsiusToKelvin(temperatureC) }),
      }),
    ),
  };
}

/** The judgement as it is sent back; what the record cannot say is left out. */
export function holdToWire(id: HoldWire["id"], judgement: HoldJudgement) {
  const { verdict, reasons, leak, settlesAt, smallestLeakShownPaPerS, nextAction, rulesVersion } = judgement;
  const perMinute = (paPerS: number) => paToMicron(paPerS * SECONDS_PER_MINUTE);
  return {
    id,
    verdict,
    reasons,
    ...(leak && {
      leak: {
        micronPerMin: perMinute(leak.ratePaPerS),
        interval95MicronPerMin: [perMinute(leak.interval95PaPerS[0]), perMinute(leak.interval95PaPerS[1])] as const,
        pascalLitrePerSecond: leak.throughputPaM3PerS * 1000,
      },
    }),
    ...(settlesAt && {
      settlesAtMicron: {
        estimate: paToMicron(settlesAt.estimatePa),
        interval95: [paToMicron(settlesAt.interval95Pa[0]), paToMicron(settlesAt.interval95Pa[1])] as const,
      },
    }),
    ...(smallestLeakShownPaPerS !== null && { smallestLeakShownMicronPerMin: perMinute(smallestLeakShownPaPerS) }),
    nextAction,
    rulesVersion,
  };
}
