import { type HoldRecord, judgeHold, startHold } from "@/lib/hvac";
import { holdFromWire } from "@/lib/hvac/schema";
import { KIND_NAMES, simulateHold } from "@/tests/hvac/hold/simulator/cases";
import { type Figure, printWhenStarted } from "./figure";
import { plainFit } from "./hold-peer";

const READINGS = 1800;
const RECORDS = 60;
const ROUNDS = 7;
const LIVE_TAIL = 10;
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

interface Cost {
  readonly wallMs: number;
  /** Of all threads: what was compiled and cleared away meanwhile is in it. */
  readonly processorMs: number;
}

/** Judging a whole hold, and one more reading of a running one; each hold counts with its median over the rounds. */
export async function benchHold(): Promise<readonly Figure[]> {
  const records = longRecords();
  for (const record of records) judgeHold(record);
  const judged: Cost[][] = records.map(() => []);
  const fitted: Cost[][] = records.map(() => []);
  const live: Cost[][] = records.map(() => []);
  for (let round = 0; round < ROUNDS; round++) {
    for (const [index, record] of records.entries()) {
      judged[index]!.push(costOf(() => judgeHold(record)));
      fitted[index]!.push(costOf(() => plainFit(record.readings)));
      live[index]!.push(...liveCosts(record));
    }
  }
  return [
    ...figuresOf(`judge a hold of ${READINGS} readings`, judged, 2, fitted),
    ...figuresOf("one more live reading, judged", live, 1),
  ];
}

function figuresOf(what: string, costs: readonly Cost[][], atMost: number, peer?: readonly Cost[][]): Figure[] {
  return (["processorMs", "wallMs"] as const).flatMap((key) => {
    const [values, besides] = [costs, peer].map((each) =>
      each?.map((some) =>
        quantile(
          some.map((cost) => cost[key]),
          0.5,
        ),
      ),
    );
    return (
      [
        ["median", 0.5],
        ["95 of 100", 0.95],
      ] as const
    ).map(([word, share]) => ({
      name: `${what}, ${key === "wallMs" ? "by the clock" : "processor"}, ${word}`,
      value: quantile(values!, share),
      unit: "ms",
      ...(share === 0.5 && { atMost }),
      ...(besides && { beside: { name: PEER, value: quantile(besides, share) } }),
    }));
  });
}

function liveCosts({ readings, ...terms }: HoldRecord): Cost[] {
  const hold = startHold(terms);
  for (const reading of readings.slice(0, -LIVE_TAIL)) hold.add(reading);
  return readings.slice(-LIVE_TAIL).map((reading) =>
    costOf(() => {
      hold.add(reading);
      hold.judge();
    }),
  );
}

function costOf(work: () => void): Cost {
  const usedFrom = process.cpuUsage();
  const from = performance.now();
  work();
  const wallMs = performance.now() - from;
  const used = process.cpuUsage(usedFrom);
  return { wallMs, processorMs: (used.user + used.system) / 1000 };
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

await printWhenStarted(import.meta.url, benchHold);
