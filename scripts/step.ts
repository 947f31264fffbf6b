import { spawn } from "node:child_process";
import { once } from "node:events";
import { createWriteStream, mkdirSync } from "node:fs";
import { dirname } from "node:path";

/** A command at the terminal cannot go on; the message is all the person needs. */
export class StepFailure extends Error {
  override readonly name = "StepFailure";
}

const SPOKEN = new Set(["StepFailure", "EmbeddedFailure", "MigrationFailure", "ArchiveFailure"]);

/** Shows what is being done and, when done, how long it took and what came of it. */
export async function step<T>(label: string, work: () => Promise<T>, note?: (result: T) => string): Promise<T> {
  const startedAt = performance.now();
  process.stdout.write(`  ${label} … `);
  try {
    const result = await work();
    const said = note?.(result) ?? "";
    console.log(`${said ? `${said}, ` : ""}${seconds(startedAt)}`);
    return result;
  } catch (error) {
    console.log(`failed after ${seconds(startedAt)}`);
    throw error;
  }
}

export function seconds(startedAt: number): string {
  return `${((performance.now() - startedAt) / 1000).toFixed(1)} s`;
}

/** Ends the process with the message alone where it was made for a person, with the stack where it is our bug. */
export async function exitOnFailure(work: () => Promise<unknown>): Promise<void> {
  try {
    await work();
  } catch (error) {
    const spoken = error instanceof Error && SPOKEN.has(error.name);
    console.error(spoken ? `\n${(error as Error).message}` : error);
    process.exit(1);
  }
}

export interface RunOptions {
  readonly env?: Readonly<Record<string, string | undefined>>;
  /** Also written here; without `show` the terminal sees it only after a failure. */
  readonly logFile?: string;
  readonly show?: boolean;
}

/** Runs a program to its end; the answer is its exit code and what it printed. */
export async function run(command: string, args: readonly string[], options: RunOptions = {}) {
  const child = spawn(command, args, {
    env: { ...process.env, ...options.env } as NodeJS.ProcessEnv,
    stdio: ["ignore", "pipe", "pipe"],
  });
  let output = "";
  if (options.logFile) mkdirSync(dirname(options.logFile), { recursive: true });
  const log = options.logFile ? createWriteStream(options.logFile) : null;
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding("utf8").on("data", (text: string) => {
      output += text;
      log?.write(text);
      if (options.show) process.stdout.write(text);
    });
  }
  const [code] = (await once(child, "close")) as [number | null];
  log?.end();
  return { code: code ?? 1, output };
}

/** As `run`, for a program that must succeed. */
export async function mustRun(command: string, args: readonly string[], options: RunOptions = {}): Promise<string> {
  const { code, output } = await run(command, args, options);
  if (code === 0) return output;
  throw new StepFailure(`"${[command, ...args].join(" ")}" failed:\n${options.show ? "" : output.slice(-4000)}`);
}
