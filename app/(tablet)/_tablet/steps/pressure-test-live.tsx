"use client";

import { useMemo } from "react";
import { Facts } from "@/components/ui/section";
import { type State, StateMark } from "@/components/ui/state-mark";
import { celsiusToKelvin, nitrogenPressureAtTemperaturePa, toPa } from "@/lib/hvac";
import type { CircuitFacts, EvidenceOf, PressureReading } from "@/lib/hvac/procedure";
import { criteriaInForce } from "@/lib/hvac/procedure";
import { pressureTestWords } from "@/lib/words/en/pressure-test";
import type { Draft } from "../form/draft";
import { useJobHere } from "../job/job-context";
import type { OpenJob } from "../job/use-job";
import type { Judged } from "../judging/answer";
import { useAnswer } from "../judging/use-answer";
import { LiveNumber } from "../units/live-number";
import { useUnits } from "../units/unit-choices";
import { pressureReadings } from "./readings";

/** The limit of the weakest part connected, in kPa gauge; null while it is not known. */
export function weakestPart(draft: Draft, circuit: CircuitFacts | null): number | null {
  const low = circuit?.lowSideDesignKPaGauge ?? null;
  return draft.lowSideConnected === false ? (circuit?.highSideDesignKPaGauge ?? null) : low;
}

/** What the judge is asked with what is typed so far; null while something it needs is missing. */
export function pressureTestQuestion(evidence: Draft, job: OpenJob): Judged["pressure-test"]["question"] | null {
  const { state } = job;
  const criteria = criteriaInForce("pressure_test", state.criteria, { circuit: state.circuit, wet: state.wet });
  const maxTestKPaGauge = weakestPart(evidence, state.circuit);
  const { gauge, internalVolumeL, atmosphericKPa, temperatureAccuracyC } = evidence as Partial<
    EvidenceOf<"pressure_test">
  >;
  const complete =
    criteria !== null &&
    maxTestKPaGauge !== null &&
    [internalVolumeL, atmosphericKPa, temperatureAccuracyC, gauge?.resolutionKPa, gauge?.accuracyPercent].every(
      (value) => typeof value === "number",
    );
  if (!complete) return null;
  return {
    evidence: evidence as unknown as EvidenceOf<"pressure_test">, // what the judge reads of it was checked above
    readings: pressureReadings(evidence.record, job.traces),
    criteria: criteria.values,
    maxTestKPaGauge,
    circuit: state.circuit,
  };
}

/** Where the gauge should stand now if nothing leaks, where it stands, and what the judge says. */
export function PressureTestLive({ readings, evidence }: { readings: readonly PressureReading[]; evidence: Draft }) {
  const { job } = useJobHere();
  const units = useUnits();
  const [first, last] = [readings[0], readings.at(-1)];
  const question = useMemo(() => pressureTestQuestion(evidence, job), [evidence, job]);
  const judgement = useAnswer("pressure-test", question);
  if (!first || !last) return null;
  const loss = (kPa: number | undefined) => (kPa === undefined ? "?" : units.pressureDifference(kPa));
  const atmosphericPa = toPa(typeof evidence.atmosphericKPa === "number" ? evidence.atmosphericKPa : 101.3, "kPa");
  const expectedKPa =
    (nitrogenPressureAtTemperaturePa(
      toPa(first.kPaGauge, "kPa") + atmosphericPa,
      celsiusToKelvin(first.temperatureC),
      celsiusToKelvin(last.temperatureC),
    ) -
      atmosphericPa) /
    1000;
  return (
    <div className="grid grid-cols-[minmax(0,1fr)] gap-2 desk:grid-cols-2 desk:items-start desk:gap-8">
      <div className="grid gap-2">
        <LiveNumber quantity="gaugePressure" wire={last.kPaGauge} />
        <Facts
          items={[
            {
              term: pressureTestWords.expectedNow,
              value: pressureTestWords.atTemperature(
                units.words("gaugePressure", expectedKPa),
                units.words("temperature", last.temperatureC),
              ),
            },
            {
              term: pressureTestWords.difference,
              value: signed(
                units.pressureDifference(Math.abs(last.kPaGauge - expectedKPa)),
                last.kPaGauge - expectedKPa,
              ),
            },
            {
              term: pressureTestWords.atTheStart,
              value: pressureTestWords.atTemperature(
                units.words("gaugePressure", first.kPaGauge),
                units.words("temperature", first.temperatureC),
              ),
            },
            ...(judgement?.figures.leakKPaPerHour !== undefined
              ? [
                  {
                    term: pressureTestWords.loss,
                    value: pressureTestWords.anHourBetween(
                      loss(judgement.figures.leakKPaPerHour),
                      loss(judgement.figures.leakLowKPaPerHour),
                      loss(judgement.figures.leakHighKPaPerHour),
                    ),
                  },
                ]
              : []),
          ]}
        />
      </div>
      {question === null && <StateMark state="cannot-say" word={pressureTestWords.describeGaugeAndPlace} />}
      {judgement && (
        <div>
          <p role="status">
            <StateMark {...verdictMark(judgement.verdict)} />
          </p>
          <ul className="list-disc pl-6">
            {judgement.reasons.map((reason) => (
              <li key={reason.code}>{reason.text}</li>
            ))}
          </ul>
        </div>
      )}
    </div>
  );
}

function verdictMark(verdict: string): { state: State; word: string } {
  switch (verdict) {
    case "tight":
      return { state: "proven", word: pressureTestWords.tight };
    case "leaking":
      return { state: "refused", word: pressureTestWords.leaking };
    case "over-pressure":
      return { state: "refused", word: pressureTestWords.overPressure };
    default:
      return { state: "cannot-say", word: pressureTestWords.notProvenYet };
  }
}

function signed(words: string, difference: number): string {
  return difference < 0 ? pressureTestWords.lower(words) : pressureTestWords.higher(words);
}
