import { expect, type Page } from "@playwright/test";

export interface NewWork {
  readonly customer: string;
  readonly unit: string | RegExp;
  readonly symptom: string;
  readonly technician?: string;
  readonly circuit?: RegExp;
  readonly kindOfJob?: string;
}

/** Today at the demo company, as a date field takes it. */
export function companyToday(): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone: "America/Chicago" }).format(new Date());
}

/** Takes a call at the desk, planned and assigned at once; the number of the work order. */
export async function takeCallWithOrder(page: Page, company: string, work: NewWork): Promise<string> {
  await page.goto(`/${company}/calls/new`);
  await page.getByRole("combobox", { name: "Customer", exact: true }).fill(work.customer);
  await page.getByRole("option", { name: work.customer }).first().click();
  await chooseOption(page, "Unit", work.unit);
  await page.waitForURL(/unit=/);
  await page.getByLabel("In the caller's words").fill(work.symptom);
  await page.getByText("Today", { exact: true }).click();
  await page.getByLabel("Day", { exact: true }).fill(companyToday());
  await page.getByLabel("From", { exact: true }).fill("06:00");
  await page.getByLabel("To", { exact: true }).fill("22:00");
  await page.getByLabel("Planned start").fill(`${companyToday()}T13:00`);
  if (work.technician) await page.getByRole("checkbox", { name: new RegExp(work.technician) }).check();
  if (work.circuit) await chooseOption(page, "Circuit to be opened", work.circuit);
  if (work.kindOfJob) await page.getByLabel("Kind of job").selectOption({ label: work.kindOfJob });
  await page.getByRole("button", { name: "Save the call" }).click();
  await page.waitForURL(/\/work-orders\//);
  const heading = await page.getByRole("heading", { level: 1 }).textContent();
  const number = /\d+/.exec(heading ?? "")?.[0];
  expect(number).toBeDefined();
  return number!;
}

async function chooseOption(page: Page, label: string, option: string | RegExp) {
  const list = page.getByLabel(label, { exact: true });
  await expect(list.locator("option").nth(1)).toBeAttached();
  const words = await list.locator("option").allTextContents();
  const found = words.find((text) => (typeof option === "string" ? text.startsWith(option) : option.test(text)));
  if (!found) throw new Error(`${label}: no choice like ${option} among ${words.join(" | ")}`);
  await list.selectOption({ label: found });
}
