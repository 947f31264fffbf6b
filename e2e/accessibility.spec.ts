import AxeBuilder from "@axe-core/playwright";
import { expect, type Page, test } from "@playwright/test";
import { addresses, fill, idsByName } from "./addresses";
import { idsOf } from "./database";
import { pageOf, people } from "./people";

/** WCAG 2.2, levels A and AA, as far as a program can see (axe-core's tags for them). */
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** In the page itself: the other way opens a window of its own for each answer. No page here has frames. */
const axeOf = (page: Page) => new AxeBuilder({ page }).options({ resultTypes: ["violations"] }).setLegacyMode(true);
/** What may differ when the page is dark and narrow; all else is the same page. The colour pairs are held by tests/ui/contrast.test.ts too. */
const BY_LOOK = ["color-contrast", "target-size", "scrollable-region-focusable", "link-in-text-block"];
const LOOKS = [
  { colorScheme: "light", width: 1280, axe: (page: Page) => axeOf(page).withTags(TAGS) },
  { colorScheme: "dark", width: 820, axe: (page: Page) => axeOf(page).withRules(BY_LOOK) },
] as const;

/** Serious faults of a page in each look, the page loaded once. */
async function faultsOf(page: Page, path: string): Promise<string[]> {
  const faults: string[] = [];
  await page.goto(path);
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  for (const { colorScheme, width, axe } of LOOKS) {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    const { violations } = await axe(page).analyze();
    for (const { id, impact, nodes } of violations) {
      if (impact !== "serious" && impact !== "critical") continue;
      for (const { target, failureSummary } of nodes)
        faults.push(`${path} ${colorScheme} ${id}: ${target.join(" ")} ${failureSummary?.split("\n")[1]?.trim()}`);
    }
  }
  return faults;
}

test("office and account pages have no serious fault, light and wide or dark and narrow", async ({ browser }) => {
  test.setTimeout(600_000);
  const ids = await idsOf("fernhollow");
  const page = await pageOf(browser, people.owner);
  const office = addresses("page.tsx")
    .filter((path) => !path.startsWith("/t/") && path !== "/[company]")
    .map((path) => fill(path, "fernhollow", idsByName(ids)));
  expect(office.length).toBeGreaterThan(35);
  office.push(`/fernhollow/calls/new?customer=${ids.customerId}&unit=${ids.equipmentId}`);
  office.push("/fernhollow/jobs/nothing-here");
  const faults: string[] = [];
  for (const path of office) faults.push(...(await faultsOf(page, path)));
  for (const path of ["/account", "/companies", "/sign-out"]) faults.push(...(await faultsOf(page, path)));
  const stranger = await (await browser.newContext()).newPage();
  for (const path of ["/sign-in", "/invitation/none"]) faults.push(...(await faultsOf(stranger, path)));
  await stranger.context().close();
  await page.context().close();
  expect(faults).toEqual([]);
});
