import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { type Figure, median, printWhenStarted } from "./figure";

const COMMAND = ["scripts/bundled.mjs", "scripts/hvac.ts"];
const STARTS = 11;
const TRACES = 10_000;
const READINGS = 120;
const SHORT_LINES = 1_000_000;

/** How fast the command starts, and whether a long stream leaves its memory flat. */
export async function benchHvacCommand(): Promise<readonly Figure[]> {
  const question = '{"id":1,"temperatureC":10}\n';
  const start = (args: readonly string[]) => {
    const startedAt = performance.now();
    const { status } = spawnSync(process.execPath, args, { input: question });
    if (status !== 0) throw new Error(`${args.join(" ")} ended with ${status}`);
    return performance.now() - startedAt;
  };
  start([...COMMAND, "water"]); // makes the bundle where it is missing
  const starts = Array.from({ length: STARTS }, () => start([...COMMAND, "water"]));
  const bare = Array.from({ length: STARTS }, () => start(["-e", ""]));
  const traces = await stream("hold", TRACES, holdLine);
  const water = await stream("water", SHORT_LINES, (id) => `{"id":${id},"temperatureC":${(id % 90) - 20}}\n`);
  return [
    {
      name: "hvac command, start to first answer",
      value: median(starts),
      unit: "ms",
      atMost: 1_000,
      beside: { name: "Node alone", value: median(bare) },
    },
    { name: `${TRACES} holds of ${READINGS} readings through the command`, value: traces.seconds, unit: "s" },
    memoryFigure(`memory at ${TRACES} holds`, traces),
    { name: `${SHORT_LINES} water questions through the command`, value: water.seconds, unit: "s" },
    memoryFigure(`memory at ${SHORT_LINES} water questions`, water),
  ];
}

interface Streamed {
  readonly seconds: number;
  /** Largest resident memory seen over the first tenth of the lines, and over all of them. */
  readonly earlyMb: number;
  readonly peakMb: number;
}

function memoryFigure(name: string, { earlyMb, peakMb }: Streamed): Figure {
  return { name, value: peakMb, unit: "MB", atMost: 300, beside: { name: "at a tenth of them", value: earlyMb } };
}

async function stream(name: string, count: number, line: (id: number) => string): Promise<Streamed> {
  const startedAt = performance.now();
  const child = spawn(process.execPath, [...COMMAND, name], { stdio: ["pipe", "pipe", "inherit"] });
  const ended = once(child, "exit");
  let answered = 0;
  child.stdout.on("data", (chunk: Buffer) => {
    for (const byte of chunk) if (byte === 0x0a) answered++;
  });
  let earlyMb = 0;
  let peakMb = 0;
  const watch = setInterval(() => {
    const nowMb = residentMb(child);
    peakMb = Math.max(peakMb, nowMb);
    if (answered <= count / 10) earlyMb = Math.max(earlyMb, nowMb);
  }, 50);
  for (let id = 1; id <= count; id++) if (!child.stdin.write(line(id))) await once(child.stdin, "drain");
  child.stdin.end();
  const [status] = await ended;
  clearInterval(watch);
  if (status !== 0 || answered !== count)
    throw new Error(`${name}: ${answered} of ${count} answered, status ${status}`);
  return { seconds: (performance.now() - startedAt) / 1000, earlyMb, peakMb };
}

/** Resident memory of a running child; 0 where the system does not tell. */
function residentMb({ pid }: ChildProcess): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, "utf8");
    return Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024;
  } catch {
    return 0;
  }
}

/** A ten-minute hold that rises and levels off, a little different each time. */
function holdLine(id: number): string {
  const readings = Array.from({ length: READINGS }, (_, index) => {
    const s = (index * 600) / (READINGS - 1);
    const micron = Math.round(
      300 + (120 + (id % 50)) * (1 - Math.exp(-s / (90 + (id % 60)))) + ((id * 7 + index * 13) % 3),
    );
    return { s: Number(s.toFixed(1)), micron };
  });
  return `${JSON.stringify({
    id,
    internalVolumeL: 8 + (id % 10),
    wallTemperatureC: 21,
    refrigerant: "R-410A",
    gauge: { location: "system", resolutionMicron: 1, accuracyPercent: 5 },
    criteria: { targetMicron: 500, holdMinutes: 10, maxFinalMicron: 1000, maxSteadyRiseMicronPerMin: 10 },
    readings,
  })}\n`;
}

await printWhenStarted(import.meta.url, benchHvacCommand);
