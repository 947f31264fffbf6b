import { mustRun } from "@/scripts/step";
import { type Figure, median, printWhenStarted } from "./figure";

interface Measured {
  readonly bytesPerSample: number;
  readonly received: readonly number[];
  readonly receivedAlone: readonly number[];
  readonly copied: readonly number[];
  readonly copiedEach: readonly number[];
}

/** Samples a second into PostgreSQL, each chunk checked, locked and committed, beside COPY of the same bytes into the same table. */
export async function benchIngest(): Promise<readonly Figure[]> {
  const printed = await mustRun(process.execPath, [
    "--import",
    "tsx",
    "--conditions=react-server",
    "bench/ingest/measure.ts",
  ]);
  const told = JSON.parse(printed.trim().split("\n").at(-1)!) as Measured;
  const [received, alone, copied, copiedEach] = [told.received, told.receivedAlone, told.copied, told.copiedEach].map(
    median,
  ) as [number, number, number, number];
  return [
    { name: "readings, packed", value: told.bytesPerSample, unit: "bytes a sample" },
    {
      name: "into the database, 8 tablets at once",
      value: received,
      unit: "samples/s",
      beside: { name: "COPY in one transaction", value: copied },
    },
    {
      name: "into the database, one tablet",
      value: alone,
      unit: "samples/s",
      beside: { name: "COPY with a commit a chunk", value: copiedEach },
    },
    { name: "COPY, a commit a chunk, in our time", value: copiedEach / received, unit: "times", atMost: 2 },
    { name: "COPY in one transaction, in our time", value: copied / received, unit: "times", atMost: 2 },
  ];
}

await printWhenStarted(import.meta.url, benchIngest);
