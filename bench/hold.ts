import { type HoldRecord, judgeHold, startHold } from "@/lib/hvac";
import { holdFromWire } from "@/lib/hvac/schema";
import { KIND_NAMES, simulateHold } from "@/tests/hvac/hold/simulator/cases";
import { plainFit } from "./hold-peer";

export interface BenchRow {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly peer?: string;
  readonly peerValue?: number;
}

const READINGS = 1800;
const RECORDS = 60;
const ROUNDS = 5;
const LIVE_TAIL = 20;
const PEER = "least squares: line + one exponential, time constant searched";

/** Half an hour at one reading a second, of every kind of hold that can be logged so. */
function longRecords(): HoldRecord[] {
  const records: HoldRecord[] = [];
  for (let seed = 1; records.length < RECORDS && seed < 4000; seed++) {
    const { wire } = simulateHold(KIND_NAMES[seed % KIND_NAMES.length]!, seed);
    if (wire.readings.length < READINGS) continue;
    records.push(holdFromWire({ ...wire, readings: wire.readings.slice(0, READINGS) }));
  }
  return records;
}

/** Judging a whole hold, and one more reading of a running one, in milliseconds on one core. */
export async function benchHold(): Promise<BenchRow[]> {
  const records = longRecords();
  for (const record of records) judgeHold(record);
  const judged: number[] = [];
  const fitted: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    for (const record of records) {
      judged.push(timeMs(() => judgeHold(record)));
      fitted.push(timeMs(() => plainFit(record.readings)));
    }
  }
  const live = records.flatMap(liveTimes);
  return [
    {
      name: `judge a hold of ${READINGS} readings, median`,
      value: quantile(judged, 0.5),
      unit: "ms",
      peer: PEER,
      peerValue: quantile(fitted, 0.5),
    },
    {
      name: `judge a hold of ${READINGS} readings, 95 of 100`,
      value: quantile(judged, 0.95),
      unit: "ms",
      peer: PEER,
      peerValue: quantile(fitted, 0.95),
    },
    { name: "one more live reading, judged, median", value: quantile(live, 0.5), unit: "ms" },
    { name: "one more live reading, judged, 95 of 100", value: quantile(live, 0.95), unit: "ms" },
  ];
}

function liveTimes({ readings, ...terms }: HoldRecord): number[] {
  const hold = startHold(terms);
  for (const reading of readings.slice(0, -LIVE_TAIL)) hold.add(reading);
  return readings.slice(-LIVE_TAIL).map((reading) =>
    timeMs(() => {
      hold.add(reading);
      hold.judge();
    }),
  );
}

function timeMs(work: () => void): number {
  const from = performance.now();
  work();
  return performance.now() - from;
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}
