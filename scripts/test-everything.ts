import { buildApp } from "./build-app";
import { check } from "./check-code";
import { requireChromium } from "./chromium";
import { addUp, type Counts, runPlaywright, runVitest } from "./counts";
import { seconds } from "./step";

/**
 * Everything, one after the other: check, database tests, build, browser journeys. A part that fails does not hide
 * the later ones. Ends with the sums; a part that is no test (types, build, browser) counts as one failure when it fails.
 */
export async function testEverything(): Promise<void> {
  const startedAt = performance.now();
  const times: string[] = [];
  const part = async <T>(name: string, work: () => Promise<T>): Promise<T> => {
    const partStartedAt = performance.now();
    console.log(`\n── ${name}`);
    try {
      return await work();
    } finally {
      times.push(`${name} ${seconds(partStartedAt)}`);
    }
  };

  const checked = await part("Check", check);
  const failures = checked.failures.filter((name) => name !== "unit tests");
  const counts: Counts[] = [checked.counts, await part("Database tests", () => runVitest("db"))];
  try {
    await part("Build", () => buildApp());
    const chromium = await part("Browser", requireChromium);
    counts.push(await part("Browser journeys", () => runPlaywright(chromium)));
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    failures.push("browser journeys could not run");
  }

  const { passed, failed, skipped, failures: failedTests } = addUp(counts);
  console.log(`\n${times.join(", ")}; together ${seconds(startedAt)}.`);
  if (skipped > 0) console.log(`${skipped} skipped`);
  for (const failure of [...failures, ...failedTests]) console.log(`Failed: ${failure}`);
  console.log(`${passed} passed, ${failed + failures.length} failed`);
  if (failed + failures.length > 0) process.exitCode = 1;
}
