import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { run } from "./step";

export interface Counts {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
  /** Said again at the end of a run, where a long log is cut. */
  readonly failures: readonly string[];
}

const COUNTS_FOLDER = ".cache/counts";

/** Runs one of vitest's projects, showing its output, and reads the counts from its own report. */
export async function runVitest(project: "unit" | "db"): Promise<Counts> {
  const report = `${COUNTS_FOLDER}/${project}.json`;
  rmSync(report, { force: true });
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${report}`];
  const args = ["node_modules/vitest/vitest.mjs", "run", "--project", project, ...reporters];
  const { code } = await run(process.execPath, args, { show: true });
  const told = read<VitestReport>(report);
  const { numPassedTests = 0, numFailedTests = 0, numPendingTests = 0, numTodoTests = 0 } = told ?? {};
  const failures = (told?.testResults ?? []).flatMap(({ assertionResults }) =>
    assertionResults.filter(({ status }) => status === "failed").map(({ fullName }) => `${project}: ${fullName}`),
  );
  return honest(code, {
    passed: numPassedTests,
    failed: numFailedTests,
    skipped: numPendingTests + numTodoTests,
    failures,
  });
}

/** Journeys run side by side with all the others, on an app and a database of their own: about half of the time. */
const OTHER_HALF = ["bad-input", "dispatcher-takes-call", "main-job", "offline", "override-from-phone"];

/** Runs the browser journeys on the built app in two halves at once, showing their output. */
export async function runPlaywright(chromium: string): Promise<Counts> {
  const specs = readdirSync("e2e").filter((file) => file.endsWith(".spec.ts"));
  const isOther = (file: string) => OTHER_HALF.includes(file.replace(".spec.ts", ""));
  const halves = [specs.filter(isOther), specs.filter((file) => !isOther(file))];
  return addUp(await Promise.all(halves.map((files, at) => runSpecs(chromium, files, `half-${at + 1}`))));
}

async function runSpecs(chromium: string, files: readonly string[], name: string): Promise<Counts> {
  const report = `${COUNTS_FOLDER}/e2e-${name}.json`;
  rmSync(report, { force: true });
  const args = ["node_modules/@playwright/test/cli.js", "test", ...files, "--reporter=list,json"];
  const env = { PLAYWRIGHT_JSON_OUTPUT_FILE: report, CHROMIUM_PATH: chromium, E2E_RESULTS: `test-results/${name}` };
  const { code } = await run(process.execPath, args, { show: true, env });
  const { expected = 0, unexpected = 0, flaky = 0, skipped = 0 } = read<PlaywrightReport>(report)?.stats ?? {};
  return honest(code, { passed: expected, failed: unexpected + flaky, skipped, failures: [] }); // its list ends with them
}

export function addUp(all: readonly Counts[]): Counts {
  const sum = (pick: (counts: Counts) => number) => all.reduce((total, counts) => total + pick(counts), 0);
  return {
    passed: sum((c) => c.passed),
    failed: sum((c) => c.failed),
    skipped: sum((c) => c.skipped),
    failures: all.flatMap((c) => c.failures),
  };
}

/** A run that ended badly without one failed test (a file that could not be read, a setup that threw) is one failure. */
function honest(exitCode: number, counts: Counts): Counts {
  return exitCode !== 0 && counts.failed === 0 ? { ...counts, failed: 1 } : counts;
}

interface VitestReport {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly testResults: readonly {
    readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[];
  }[];
}

interface PlaywrightReport {
  readonly stats: {
    readonly expected: number;
    readonly unexpected: number;
    readonly flaky: number;
    readonly skipped: number;
  };
}

function read<T>(file: string): T | null {
  return existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as T) : null;
}
