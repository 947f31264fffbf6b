import AxeBuilder from "@axe-core/playwright";
import { expect, type Page, test } from "@playwright/test";
import { idsOf } from "./database";
import { pageOf, people } from "./people";

/** WCAG 2.2, levels A and AA, as far as a program can see (axe-core's tags for them). */
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

async function faultsOf(page: Page, path: string): Promise<string[]> {
  await page.goto(path);
  await page.waitForLoadState("networkidle");
  const { violations } = await new AxeBuilder({ page }).withTags(TAGS).analyze();
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .flatMap(({ id, nodes }) =>
      nodes.map(
        ({ target, failureSummary }) => `${path} ${id}: ${target.join(" ")} ${failureSummary?.split("\n")[1]?.trim()}`,
      ),
    );
}

// Each scheme and each width once; the colour pairs of both schemes are held by tests/ui/contrast.test.ts.
for (const [colorScheme, viewport, width] of [
  ["light", "wide", 1280],
  ["dark", "narrow", 820],
] as const) {
  test(`office and account pages, ${colorScheme}, ${viewport}`, async ({ browser }) => {
    test.setTimeout(300_000);
    const ids = await idsOf("fernhollow");
    const page = await pageOf(browser, people.owner);
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    const office = [
      ...[
        "day",
        "calls",
        "calls/new",
        "work-orders",
        "jobs",
        "customers",
        "customers/new",
        "equipment",
        "tools",
        "tools/new",
      ],
      ...["cylinders", "cylinders/new", "people", "exceptions", "settings", "import"],
      `calls/${ids.callId}`,
      `calls/new?customer=${ids.customerId}&unit=${ids.equipmentId}`,
      `work-orders/${ids.orderId}`,
      `jobs/${ids.jobId}`,
      `jobs/${ids.jobId}/sheet`,
      `customers/${ids.customerId}`,
      `customers/${ids.customerId}/edit`,
      `customers/${ids.customerId}/sites/${ids.siteId}`,
      `equipment/${ids.equipmentId}`,
      `tools/${ids.toolId}`,
      `cylinders/${ids.cylinderId}`,
      `people/${ids.personId}`,
      "jobs/nothing-here",
    ];
    const faults: string[] = [];
    for (const path of office) faults.push(...(await faultsOf(page, `/fernhollow/${path}`)));
    for (const path of ["/account", "/companies", "/sign-out"]) faults.push(...(await faultsOf(page, path)));
    const stranger = await (await browser.newContext({ colorScheme, viewport: { width, height: 900 } })).newPage();
    for (const path of ["/sign-in", "/invitation/none"]) faults.push(...(await faultsOf(stranger, path)));
    await stranger.context().close();
    await page.context().close();
    expect(faults).toEqual([]);
  });
}
