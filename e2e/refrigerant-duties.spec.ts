import { readFile } from "node:fs/promises";
import { expect, type Page, test } from "@playwright/test";
import { readPdf } from "../tests/certificate/read-pdf";
import { pageOf, people } from "./people";

const daysAgo = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);

async function record(page: Page, what: string, on: string, passed?: "Passed: no leak found"): Promise<void> {
  const form = page.getByRole("region", { name: "Record what was done" });
  await form.getByLabel("What", { exact: true }).selectOption({ label: what });
  await form.getByLabel("Day").fill(on);
  if (passed) {
    await form.getByLabel("Result").selectOption({ label: passed });
    await form.getByLabel("Method and instrument").fill("bubbles at 150 psig");
  }
  await form.getByLabel("Done by").fill("Tomas Reedley");
  await form.getByRole("button", { name: "Record it" }).click();
  await expect(page.getByRole("region", { name: "On record" }).getByText(what)).toBeVisible();
}

test("a leak over the trigger is put on the due list and worked off with both verification tests; an inspector's record is opened and read", async ({
  browser,
}) => {
  const page = await pageOf(browser, people.supervisor);
  await page.goto("/fernhollow/refrigerant/import");
  // 3 kg into a rack of 9.5 kg in a year: 32 %, where 20 % is the trigger of commercial refrigeration
  await page.getByLabel("or its lines, pasted").fill(`Serial,Added on,Added kg\nBG-2031,${daysAgo(20)},3\nNOBODY,,`);
  await page.getByRole("button", { name: "See what it would do" }).click();
  await expect(page.getByText("No such unit in the register")).toBeVisible();
  await page.getByLabel("or its lines, pasted").fill(`Serial,Added on,Added kg\nBG-2031,${daysAgo(20)},3`);
  await page.getByRole("button", { name: "See what it would do" }).click();
  await page.getByRole("button", { name: "Bring the list in" }).click();
  await expect(page.getByText("1 additions")).toBeVisible();

  await page.getByRole("link", { name: "See what is due" }).click();
  const repair = page.getByRole("row", { name: /Repair every leak within 30 days/ });
  await expect(repair).toContainText("Owner or operator");
  await expect(repair).toContainText("40 CFR 82.157(d)");
  await expect(repair.getByRole("button", { name: "Make the call" })).toBeVisible();
  await repair.getByRole("link", { name: /Circuit/ }).click();
  await expect(page.getByText("31.6 %")).toBeVisible();
  await record(page, "Repair", daysAgo(18));
  await record(page, "Initial verification test", daysAgo(18), "Passed: no leak found");
  await record(page, "Follow-up verification test", daysAgo(10), "Passed: no leak found");

  const downloading = page.waitForEvent("download");
  await page.getByRole("button", { name: "As PDF" }).click();
  const { text } = await readPdf(new Uint8Array(await readFile(await (await downloading).path())));
  expect(text).toContain("Bellweather");
  expect(text).toContain("Leak rate");
  expect(text).toContain("31.58 % a year, above the trigger");
  expect(text).toContain("Follow-up verification test");
  expect(text).toContain("Tomas Reedley");
  expect(text).toContain("bubbles at 150 psig");

  await page.goto("/fernhollow/refrigerant/due");
  await expect(page.getByRole("heading", { name: "What is due" })).toBeVisible();
  await expect(page.getByRole("row", { name: /verification test|Repair every leak/ })).toHaveCount(0);
  await page.getByRole("link", { name: "Done", exact: true }).click();
  await expect(page.getByRole("row", { name: /verification test|Repair every leak/ })).toHaveCount(3);
});
