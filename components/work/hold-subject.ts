import type { State } from "@/components/ui/state-mark";
import type { PictureSubject } from "@/components/vacuum-picture/subject";
import type { HoldVerdict } from "@/lib/hvac";
import { judgeHold, kelvinToCelsius, micronToPa, saturationPressurePa } from "@/lib/hvac";
import type { EvidenceOf, HoldCriteria, VacuumReading } from "@/lib/hvac/procedure";
import { holdRecordOf } from "@/lib/hvac/procedure";
import { temperatureText } from "@/lib/work/evidence-lines";

export interface MeasuredHold {
  readonly evidence: EvidenceOf<"hold">;
  readonly readings: readonly VacuumReading[];
  readonly criteria: HoldCriteria;
  readonly refrigerant: string;
}

/** A recorded hold as the vacuum picture shows it: what was measured, and what the engine says of it. */
export function holdSubject({ evidence, readings, criteria, refrigerant }: MeasuredHold): {
  subject: PictureSubject;
  verdict: { state: State; word: string; sentence: string };
} {
  const record = holdRecordOf(evidence, readings, criteria, refrigerant);
  const judgement = judgeHold(record);
  const { settlesAt, band } = judgement;
  const wallC = kelvinToCelsius(record.wallTemperatureK);
  const subject = {
    trace: {
      atS: record.readings.map((each) => each.atS),
      pressureAbsPa: record.readings.map((each) => each.pressureAbsPa),
    },
    targetPa: micronToPa(criteria.targetMicron),
    limitPa: record.criteria.maxFinalPa,
    water: { pressurePa: saturationPressurePa(record.wallTemperatureK), wallWords: temperatureText(wallC) },
    isolatedAtS: record.readings[0]?.atS,
    band: {
      atS: band.map((point) => point.atS),
      loPa: band.map((point) => point.loPa),
      midPa: band.map((point) => point.midPa),
      hiPa: band.map((point) => point.hiPa),
    },
    settlesAt: settlesAt
      ? { estimatePa: settlesAt.estimatePa, loPa: settlesAt.interval95Pa[0], hiPa: settlesAt.interval95Pa[1] }
      : undefined,
  };
  return { subject, verdict: { ...verdictMark[judgement.verdict], sentence: judgement.reasons[0]?.text ?? "" } };
}

const verdictMark: Record<HoldVerdict, { state: State; word: string }> = {
  "dry-and-tight": { state: "proven", word: "Dry and tight" },
  wet: { state: "refused", word: "Wet" },
  leaking: { state: "refused", word: "Leaking" },
  "wet-and-leaking": { state: "refused", word: "Wet and leaking" },
  unproven: { state: "cannot-say", word: "Unproven" },
};
