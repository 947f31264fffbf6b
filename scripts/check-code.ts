import { generateClient } from "./build-app";
import { addUp, type Counts, runVitest } from "./counts";
import { run, seconds } from "./step";

const NODE = process.execPath;

/** What is read without running it; all three fit into memory and finish in seconds, so they go side by side. */
const READINGS: readonly { readonly name: string; readonly args: readonly string[] }[] = [
  { name: "types", args: ["node_modules/typescript/bin/tsc", "--noEmit"] },
  { name: "pure types", args: ["node_modules/typescript/bin/tsc", "-p", "tsconfig.pure.json", "--noEmit"] },
  { name: "lint, format and import rules", args: ["node_modules/@biomejs/biome/bin/biome", "ci", "--colors=off"] },
];

/** Types, lint, format, import rules and unit tests; the names of those that failed, and the tests' counts. */
export async function check(): Promise<{ readonly failures: readonly string[]; readonly counts: Counts }> {
  await generateClient();
  const failures = (await Promise.all(READINGS.map(holds))).filter((name) => name !== null);
  const counts = await runVitest("unit");
  return { failures: counts.failed > 0 ? [...failures, "unit tests"] : failures, counts: addUp([counts]) };
}

async function holds({ name, args }: (typeof READINGS)[number]): Promise<string | null> {
  const startedAt = performance.now();
  const { code, output } = await run(NODE, args);
  console.log(`  ${name} … ${code === 0 ? "hold" : `FAILED\n${output}`}, ${seconds(startedAt)}`);
  return code === 0 ? null : name;
}
