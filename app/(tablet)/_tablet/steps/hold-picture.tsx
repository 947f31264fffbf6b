"use client";

import { useMemo } from "react";
import { traceOf } from "@/components/vacuum-picture/trace";
import { VacuumPictureLive } from "@/components/vacuum-picture/vacuum-picture-live";
import type { HoldJudgement } from "@/lib/hvac";
import { celsiusToKelvin, micronToPa, saturationPressurePa } from "@/lib/hvac";
import type { VacuumReading } from "@/lib/hvac/procedure";
import { criteriaInForce } from "@/lib/hvac/procedure";
import { holdWords } from "@/lib/words/en/hold";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";
import { saysHeading } from "./hold-judging";
import { pictureUnit } from "./picture-unit";

/** The hold drawn: trace, target, limit, where water boils, and the band the engine expects. */
export function HoldPicture(props: {
  readings: readonly VacuumReading[];
  judgement: HoldJudgement | null;
  wallTemperatureC: number | null;
}) {
  const { readings, judgement, wallTemperatureC } = props;
  const { job } = useJobHere();
  const units = useUnits();
  const { state } = job;
  const criteria = criteriaInForce("hold", state.criteria, { circuit: state.circuit, wet: state.wet })?.values;
  const trace = useMemo(
    () => traceOf(readings.map(({ s, micron }) => ({ atS: s, pressureAbsPa: micronToPa(micron) }))),
    [readings],
  );
  const band = judgement && judgement.band.length > 1 ? judgement.band : null;
  return (
    <VacuumPictureLive
      title={holdWords.isolatedHold}
      closeUp
      trace={trace}
      unit={pictureUnit(units.choices)}
      isolatedAtS={readings[0]?.s}
      targetPa={criteria && micronToPa(criteria.targetMicron)}
      limitPa={criteria && micronToPa(criteria.maxFinalMicron)}
      water={
        wallTemperatureC === null
          ? undefined
          : {
              pressurePa: saturationPressurePa(celsiusToKelvin(wallTemperatureC)),
              wallWords: units.words("temperature", wallTemperatureC),
            }
      }
      band={
        band
          ? {
              atS: band.map(({ atS }) => atS),
              loPa: band.map(({ loPa }) => loPa),
              midPa: band.map(({ midPa }) => midPa),
              hiPa: band.map(({ hiPa }) => hiPa),
            }
          : undefined
      }
      settlesAt={
        judgement?.settlesAt && saysHeading(judgement, readings.at(-1)?.micron)
          ? {
              estimatePa: judgement.settlesAt.estimatePa,
              loPa: judgement.settlesAt.interval95Pa[0],
              hiPa: judgement.settlesAt.interval95Pa[1],
            }
          : undefined
      }
      lastWord="now"
      textPx={15}
      heightPx={380}
      figures={false}
    />
  );
}
