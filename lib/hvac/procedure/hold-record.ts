import type { HoldRecord } from "../hold/record";
import type { EvidenceOf, HoldCriteria, VacuumReading } from "../log/entry";
import { celsiusToKelvin, micronToPa } from "../units";

const SECONDS_PER_MINUTE = 60;

/** A hold as it was recorded, in the form the hold judge reads; a criterion to fail at is a limit like the final one. */
export function holdRecordOf(
  evidence: Pick<EvidenceOf<"hold">, "internalVolumeL" | "wallTemperatureC"> & {
    readonly gauge: Pick<EvidenceOf<"hold">["gauge"], "location" | "resolutionMicron" | "accuracyPercent">;
  },
  readings: readonly VacuumReading[],
  criteria: HoldCriteria,
  refrigerant: string,
): HoldRecord {
  const { gauge } = evidence;
  const maxFinalMicron = Math.min(criteria.maxFinalMicron, criteria.failAtMicron ?? Number.POSITIVE_INFINITY);
  return {
    internalVolumeM3: evidence.internalVolumeL / 1000,
    wallTemperatureK: celsiusToKelvin(evidence.wallTemperatureC),
    refrigerant,
    gauge: {
      location: gauge.location,
      resolutionPa: micronToPa(gauge.resolutionMicron),
      accuracyFraction: gauge.accuracyPercent / 100,
    },
    criteria: {
      targetPa: micronToPa(criteria.targetMicron),
      holdS: criteria.holdMinutes * SECONDS_PER_MINUTE,
      maxFinalPa: micronToPa(maxFinalMicron),
      maxSteadyRisePaPerS: micronToPa(criteria.maxSteadyRiseMicronPerMin) / SECONDS_PER_MINUTE,
    },
    readings: readings.map(({ s, micron, temperatureC }) => ({
      atS: s,
      pressureAbsPa: micronToPa(micron),
      ...(temperatureC !== undefined && { temperatureK: celsiusToKelvin(temperatureC) }),
    })),
  };
}
