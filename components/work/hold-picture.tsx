import type { State } from "@/components/ui/state-mark";
import type { PictureUnit } from "@/components/vacuum-picture/scale";
import { VacuumPicture } from "@/components/vacuum-picture/vacuum-picture";
import type { HoldVerdict } from "@/lib/hvac";
import { fromPa, judgeHold, kelvinToCelsius, micronToPa, saturationPressurePa } from "@/lib/hvac";
import type { EvidenceOf, HoldCriteria, VacuumReading } from "@/lib/hvac/procedure";
import { holdRecordOf } from "@/lib/hvac/procedure";

/** A recorded hold drawn as it was measured, with the engine's band, level and sentence. */
export function HoldPicture(props: {
  title: string;
  evidence: EvidenceOf<"hold">;
  readings: readonly VacuumReading[];
  criteria: HoldCriteria;
  refrigerant: string;
  unit?: PictureUnit;
}) {
  const { readings, criteria, unit = "micron" } = props;
  const record = holdRecordOf(props.evidence, readings, criteria, props.refrigerant);
  const judgement = judgeHold(record);
  const { settlesAt, band } = judgement;
  const wallC = kelvinToCelsius(record.wallTemperatureK);
  return (
    <VacuumPicture
      title={props.title}
      unit={unit}
      closeUp
      trace={{
        atS: record.readings.map((each) => each.atS),
        pressureAbsPa: record.readings.map((each) => each.pressureAbsPa),
      }}
      targetPa={micronToPa(criteria.targetMicron)}
      limitPa={record.criteria.maxFinalPa}
      water={{ pressurePa: saturationPressurePa(record.wallTemperatureK), wallWords: `${wallC.toFixed(1)} °C` }}
      isolatedAtS={record.readings[0]?.atS}
      band={{
        atS: band.map((point) => point.atS),
        loPa: band.map((point) => point.loPa),
        midPa: band.map((point) => point.midPa),
        hiPa: band.map((point) => point.hiPa),
      }}
      settlesAt={
        settlesAt
          ? { estimatePa: settlesAt.estimatePa, loPa: settlesAt.interval95Pa[0], hiPa: settlesAt.interval95Pa[1] }
          : undefined
      }
      verdict={{ ...verdictMark[judgement.verdict], sentence: judgement.reasons[0]?.text ?? "" }}
    />
  );
}

export const verdictMark: Record<HoldVerdict, { state: State; word: string }> = {
  "dry-and-tight": { state: "proven", word: "Dry and tight" },
  wet: { state: "refused", word: "Wet" },
  leaking: { state: "refused", word: "Leaking" },
  "wet-and-leaking": { state: "refused", word: "Wet and leaking" },
  unproven: { state: "cannot-say", word: "Unproven" },
};

/** A pressure with its unit, three digits. */
export function pressureText(pressurePa: number, unit: PictureUnit): string {
  return `${Number(fromPa(pressurePa, unit).toPrecision(3))} ${unit}`;
}
