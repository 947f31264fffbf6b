import { spawnSync } from "node:child_process";
import { type Cohort, reportQuality, STRENGTHS } from "@/lib/quality";
import { parseCohort } from "@/lib/quality/schema";
import { seeded } from "../tests/quality/random";
import { type Figure, median, printWhenStarted } from "./figure";

const JOBS = 250_000;
const PEOPLE = 60;
const ROUNDS = 5;

/** All figures of five years of a company with 60 technicians. */
export async function benchQuality(): Promise<readonly Figure[]> {
  const wire = cohortWire();
  const parsed = parseCohort(wire);
  if (!parsed.ok) throw new Error(parsed.error.message);
  const times = Array.from({ length: ROUNDS }, () => cpuMs(() => reportQuality(parsed.value as Cohort)));
  const startedAt = performance.now();
  const { status } = spawnSync(process.execPath, ["scripts/bundled.mjs", "scripts/quality.ts"], {
    input: JSON.stringify(wire),
    maxBuffer: 2 ** 26,
  });
  if (status !== 0) throw new Error(`The command ended with ${status}.`);
  return [
    { name: `every quality figure of ${JOBS} jobs, processor time`, value: median(times), unit: "ms", atMost: 1000 },
    { name: `check ${JOBS} jobs, processor time`, value: cpuMs(() => parseCohort(wire)), unit: "ms" },
    { name: `the command over ${JOBS} jobs, by the clock`, value: performance.now() - startedAt, unit: "ms" },
  ];
}

function cpuMs(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function cohortWire() {
  const random = seeded(1);
  const day = (number: number) => new Date(number * 86_400_000).toISOString().slice(0, 10);
  const today = 20_782;
  const jobs = Array.from({ length: JOBS }, (_, index) => {
    const closed = today - Math.floor(1825 * random());
    const back = closed + Math.floor(120 * random());
    return {
      id: `j${index}`,
      closed: day(closed),
      strength: STRENGTHS[Math.floor(4 * random() ** 2)],
      technician: `t${Math.floor(PEOPLE * random())}`,
      stratum: { jobType: `k${Math.floor(4 * random())}`, unitAge: `a${Math.floor(4 * random())}` },
      callback: random() < 0.06 && back <= today ? day(back) : null,
    };
  });
  return { today: day(today), windowDays: 90, jobs };
}

await printWhenStarted(import.meta.url, benchQuality);
