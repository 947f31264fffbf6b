"use client";

import { useMemo } from "react";
import { type State, StateMark } from "@/components/ui/state-mark";
import { traceOf } from "@/components/vacuum-picture/trace";
import { VacuumPictureLive } from "@/components/vacuum-picture/vacuum-picture-live";
import type { PulldownFinding, PulldownJudgement, PulldownRecord } from "@/lib/hvac";
import { celsiusToKelvin, micronToPa, saturationPressurePa } from "@/lib/hvac";
import type { VacuumReading } from "@/lib/hvac/procedure";
import { evacuateWords } from "@/lib/words/en/evacuate";
import { type Draft, valueAt } from "../form/draft";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { useAnswer } from "../judging/use-answer";
import { durationWords } from "../today/time-words";
import { LiveNumber } from "../units/live-number";
import { useUnits } from "../units/unit-choices";
import { pictureUnit } from "./picture-unit";
import { vacuumReadings } from "./readings";

const ROOM_C = 20;
const USUAL = { volumeL: 10, litresPerSecond: 1.9, ultimateMicron: 30, hoseMm: 9.5, hoseM: 1.5 } as const;

/** The gauge large, when the target is reached, and the picture so far. */
export function PulldownLive({ targetMicron }: { targetMicron: number }) {
  const { job } = useJobHere();
  const { draft } = useForm();
  const units = useUnits();
  const readings = vacuumReadings(draft.record, job.traces, draft._live);
  const last = readings.at(-1);
  const volumeL = job.state.circuit?.internalVolume?.litres ?? USUAL.volumeL;
  const record = useMemo(
    () => (readings.length > 0 ? recordOf(draft, readings, targetMicron, volumeL) : null),
    [draft, readings, targetMicron, volumeL],
  );
  const judgement = useAnswer("pulldown", record);
  const trace = useMemo(
    () => traceOf(readings.map(({ s, micron }) => ({ atS: s, pressureAbsPa: micronToPa(micron) }))),
    [readings],
  );
  if (!last) return null;
  const wallC = last.temperatureC ?? ROOM_C;
  return (
    <div className="grid grid-cols-[minmax(0,1fr)] gap-3 desk:grid-cols-[21rem_minmax(0,1fr)] desk:items-start desk:gap-8">
      <div className="grid gap-3">
        <LiveNumber quantity="vacuum" wire={last.micron} />
        {judgement && <Said judgement={judgement} />}
      </div>
      <VacuumPictureLive
        title={evacuateWords.pumpDown}
        trace={trace}
        unit={pictureUnit(units.choices)}
        targetPa={micronToPa(targetMicron)}
        water={{
          pressurePa: saturationPressurePa(celsiusToKelvin(wallC)),
          wallWords: units.words("temperature", wallC),
        }}
        lastWord="now"
        textPx={15}
        heightPx={360}
      />
    </div>
  );
}

/** When the target is reached, and what the engine makes of the way there. */
function Said({ judgement }: { judgement: PulldownJudgement }) {
  return (
    <>
      {judgement.finding !== "reached" && (
        <p className="text-title">
          {judgement.etaToTargetS === null
            ? evacuateWords.noTimeToTarget
            : evacuateWords.fallingTargetIn(durationWords(judgement.etaToTargetS))}
          {judgement.interval80S && (
            <span className="text-body text-ink-soft">
              {" "}
              {evacuateWords.eightTimesInTen(
                durationWords(judgement.interval80S[0]),
                judgement.interval80S[1] === null ? null : durationWords(judgement.interval80S[1]),
              )}
            </span>
          )}
        </p>
      )}
      <div>
        <p role="status">
          <StateMark {...findingMark(judgement.finding)} />
        </p>
        <ul className="list-disc pl-6">
          {judgement.reasons.map((reason) => (
            <li key={reason.code}>{reason.text}</li>
          ))}
        </ul>
      </div>
    </>
  );
}

function recordOf(
  draft: Draft,
  readings: readonly VacuumReading[],
  targetMicron: number,
  volumeL: number,
): PulldownRecord {
  const number = (path: string, usual: number) => {
    const value = valueAt(draft, path);
    return typeof value === "number" ? value : usual;
  };
  return {
    internalVolumeM3: volumeL / 1000,
    wallTemperatureK: celsiusToKelvin(readings.at(-1)?.temperatureC ?? ROOM_C),
    pump: {
      speedM3PerS: number("pump.litresPerSecond", USUAL.litresPerSecond) / 1000,
      ultimateAbsPa: micronToPa(number("pump.ultimateMicron", USUAL.ultimateMicron)),
    },
    valveCoresRemoved: draft.coresOut === true,
    hoses: {
      innerDiameterM: number("hoses.innerDiameterMm", USUAL.hoseMm) / 1000,
      lengthM: number("hoses.lengthM", USUAL.hoseM),
      count: number("hoses.count", 1),
    },
    gauge: {
      location: valueAt(draft, "gauge.location") === "pump" ? "pump" : "system",
      resolutionPa: micronToPa(number("gauge.resolutionMicron", 1)),
      accuracyFraction: number("gauge.accuracyPercent", 10) / 100,
    },
    targetAbsPa: micronToPa(targetMicron),
    readings: readings.map(({ s, micron }) => ({ atS: s, pressureAbsPa: micronToPa(micron) })),
  };
}

function findingMark(finding: PulldownFinding): { state: State; word: string } {
  switch (finding) {
    case "on-course":
      return { state: "working", word: evacuateWords.onItsWay };
    case "reached":
      return { state: "proven", word: evacuateWords.targetReached };
    case "too-early":
      return { state: "cannot-say", word: evacuateWords.tooEarlyToSay };
    case "stalled-by-leak":
      return { state: "refused", word: evacuateWords.stalledByALeak };
    case "stalled-by-water":
      return { state: "needs-you", word: evacuateWords.stalledByWater };
    case "stalled-by-restriction":
      return { state: "needs-you", word: evacuateWords.stalledByARestriction };
    case "stalled-by-pump":
      return { state: "needs-you", word: evacuateWords.stalledByThePump };
    case "stalled-by-outgassing":
      return { state: "needs-you", word: evacuateWords.stalledByOutgassing };
  }
}
