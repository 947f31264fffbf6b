import { expect, type Page, test } from "@playwright/test";
import { addresses, fill, idsByName } from "./addresses";
import { idsOf } from "./database";
import { faultsIn, type Look } from "./faults";
import { pageOf, people } from "./people";

const LOOKS: readonly Look[] = [
  { colorScheme: "light", width: 1280 },
  { colorScheme: "dark", width: 820 },
];

/** Serious faults of a page in each look, the page loaded once. */
async function faultsOf(page: Page, path: string): Promise<string[]> {
  await page.goto(path);
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  return faultsIn(page, path, LOOKS);
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
