import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { type Figure, printWhenStarted } from "./figure";
import { jobOf, keepProgram, openStart, serveTablet } from "./serve-tablet";

const FIRST_PAGE_KB = 170;
const HOLD_STEP_KB = 90;

/** Scripts the tablet loads for its first page, and what the hold step adds to them, from the built app in a browser. */
export async function benchTabletBundle(): Promise<readonly Figure[]> {
  const tablet = await serveTablet();
  try {
    const page = await tablet.browser.newPage();
    await openStart(page, tablet);
    await keepProgram(page); // so that no form is fetched ahead by the page itself
    await page.goto(`${tablet.url}/t/fernhollow`);
    await page
      .getByRole("link", { name: /visit|Go on/ })
      .first()
      .waitFor();
    const first = new Set(await scriptsOf(page));
    const job = await jobOf(tablet);
    await page.goto(`${tablet.url}/t/fernhollow/jobs/${job}?step=hold`);
    await page
      .getByRole("button", { name: /It has been done already|start the hold/ })
      .first()
      .waitFor();
    await page.getByRole("button", { name: "It has been done already" }).click();
    await page.getByRole("button", { name: /start the hold/ }).waitFor();
    const more = (await scriptsOf(page)).filter((name) => !first.has(name));
    const judging = await scriptsOfWorkers(page);
    const known = new Set([...first, ...more]);
    return [
      {
        name: "scripts of the technician's first page, gzip",
        value: weigh([...first]),
        unit: "kB",
        atMost: FIRST_PAGE_KB,
      },
      { name: "scripts the hold step adds, gzip", value: weigh(more), unit: "kB", atMost: HOLD_STEP_KB },
      { name: "scripts of the judges' worker, gzip", value: weigh(judging), unit: "kB" },
      {
        name: "of these not in the page as well, gzip",
        value: weigh(judging.filter((name) => !known.has(name))),
        unit: "kB",
      },
    ];
  } finally {
    await tablet.end();
  }
}

type Page = Parameters<typeof openStart>[0];

/** What the page's workers loaded: their own first script and all that it fetched. */
async function scriptsOfWorkers(page: Page): Promise<string[]> {
  const workers = page.workers();
  if (workers.length === 0) throw new Error("No worker judges: the page does it by itself.");
  const named = workers.map((worker) =>
    worker.evaluate(() => [location.href, ...performance.getEntriesByType("resource").map(({ name }) => name)]),
  );
  const paths = (await Promise.all(named)).flat().map((name) => new URL(name).pathname);
  return [...new Set(paths)].filter((path) => path.endsWith(".js"));
}

function scriptsOf(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    performance
      .getEntriesByType("resource")
      .map(({ name }) => new URL(name).pathname)
      .filter((path) => path.endsWith(".js")),
  );
}

/** Thousands of bytes, each file packed by itself as it is sent. */
function weigh(paths: readonly string[]): number {
  const bytes = paths.map((path) => gzipSync(readFileSync(path.replace("/_next/", ".next/")), { level: 9 }).length);
  return bytes.reduce((sum, each) => sum + each, 0) / 1000;
}

await printWhenStarted(import.meta.url, benchTabletBundle);
