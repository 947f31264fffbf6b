import { expect, type Page } from "@playwright/test";
import { ask } from "./database";

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

export interface PlannedJob {
  readonly visit: string;
  readonly job: string;
}

/** A leak repair on the unit's R-410A circuit, taken at the desk and given to a technician for today. */
export async function planJob(
  page: Page,
  company: string,
  work: Pick<NewWork, "customer" | "unit" | "symptom" | "technician">,
): Promise<PlannedJob> {
  const order = await takeCallWithOrder(page, company, { ...work, circuit: /R-410A/, kindOfJob: "Leak repair" });
  const [row] = await ask<PlannedJob>(
    `select v.id as visit, j.id as job from work_order o join visit v on v.tenant_id = o.tenant_id and v.work_order_id = o.id
     join circuit_job j on j.tenant_id = o.tenant_id and j.work_order_id = o.id
     join gate.company g on g.id = o.tenant_id where g.slug = $1 and o.number = $2`,
    [company, order],
  );
  return row!;
}

async function chooseOption(page: Page, label: string, option: string | RegExp) {
  const list = page.getByLabel(label, { exact: true });
  await expect(list.locator("option").nth(1)).toBeAttached();
  const words = await list.locator("option").allTextContents();
  const found = words.find((text) => (typeof option === "string" ? text.startsWith(option) : option.test(text)));
  if (!found) throw new Error(`${label}: no choice like ${option} among ${words.join(" | ")}`);
  await list.selectOption({ label: found });
}
