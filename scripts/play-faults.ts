import { parseArgs } from "node:util";
import { run, StepFailure } from "./step";

/** Plays tablets, network and database through random faults; `--runs 5000`, and `--seed n` to begin there (a seed alone is one run). */
export async function playFaults(args: readonly string[]): Promise<void> {
  const { values } = parseArgs({ args: [...args], options: { runs: { type: "string" }, seed: { type: "string" } } });
  for (const [name, value] of Object.entries(values)) {
    if (!/^\d{1,9}$/.test(value ?? "")) throw new StepFailure(`--${name} needs a whole number.`);
  }
  const runs = values.runs ?? (values.seed === undefined ? "200" : "1");
  const { code } = await run(
    process.execPath,
    ["node_modules/vitest/vitest.mjs", "run", "--project", "db", "tests/faults/faults.test.ts"],
    { show: true, env: { FAULT_RUNS: runs, ...(values.seed !== undefined && { FAULT_SEED: values.seed }) } },
  );
  process.exitCode = code;
}
