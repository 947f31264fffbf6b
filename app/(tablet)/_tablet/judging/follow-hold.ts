import { type HoldJudgement, type HoldReading, type HoldRecord, type RunningHold, startHold } from "@/lib/hvac";

/**
 * Judges one hold after the other; where a record goes on from the one before it only its new readings are taken in.
 * The answers are those of `judgeHold`, in less time: a hold that runs is asked about at each reading.
 */
export function followHold(): (record: HoldRecord) => HoldJudgement {
  let terms = "";
  let taken: readonly HoldReading[] = [];
  let running: RunningHold | null = null;
  return ({ readings, ...others }) => {
    const itsTerms = JSON.stringify(others);
    if (running === null || itsTerms !== terms || !goesOnFrom(readings, taken)) {
      running = startHold(others);
      terms = itsTerms;
      taken = [];
    }
    for (const reading of readings.slice(taken.length)) running.add(reading);
    taken = readings;
    return running.judge();
  };
}

function goesOnFrom(readings: readonly HoldReading[], taken: readonly HoldReading[]): boolean {
  return (
    readings.length >= taken.length &&
    taken.every(({ atS, pressureAbsPa, temperatureK }, index) => {
      const reading = readings[index]!;
      return atS === reading.atS && pressureAbsPa === reading.pressureAbsPa && temperatureK === reading.temperatureK;
    })
  );
}
