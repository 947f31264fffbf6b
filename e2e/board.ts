import { expect as atOnce, type Browser, type Locator, type Page } from "@playwright/test";
import { ask } from "./database";
import { companyToday } from "./intake";
import { pageOf, people } from "./people";

/** A plan is searched for while one waits; on a busy machine that takes its time. */
export const expect = atOnce.configure({ timeout: 20_000 });

export const COMPANY = "fernhollow";
/** Tomorrow, so that the day lasts whatever the hour at which this runs. */
export const day = new Date(Date.parse(`${companyToday()}T12:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
export const BOARD = `/${COMPANY}/board?day=${day}`;

/** Both technicians work from eight to five on the board's day, whatever the weekday. */
export async function giveHours(): Promise<void> {
  await ask(
    `insert into weekly_shift (tenant_id, person_id, weekday, begins_minute, ends_minute)
     select m.tenant_id, m.person_id, extract(isodow from $2::date), 480, 1020
     from member m join gate.company g on g.id = m.tenant_id where g.slug = $1 and m.email = any ($3)
     on conflict (tenant_id, person_id, weekday) do update set begins_minute = 480, ends_minute = 1020`,
    [COMPANY, day, [people.technician, people.secondTechnician]],
  );
}

interface Call {
  readonly customer: string;
  readonly symptom: string;
  readonly urgency: string;
  /** Opens a work order with the unit's circuit, planned at one with this technician. */
  readonly planned?: { readonly unit: RegExp; readonly technician: string };
}

/** Takes a call at the desk; the number of the call, or of the work order opened with it. */
export async function takeCall(page: Page, call: Call): Promise<string> {
  await page.goto(`/${COMPANY}/calls/new`);
  await page.getByRole("combobox", { name: "Customer", exact: true }).fill(call.customer);
  await page.getByRole("option", { name: call.customer }).first().click();
  await page.waitForURL(/customer=/);
  await page.getByLabel("In the caller's words").fill(call.symptom);
  await page.getByText(call.urgency, { exact: true }).click();
  if (call.planned) {
    const { unit, technician } = call.planned;
    await chooseLike(page.getByLabel("Unit", { exact: true }), unit);
    await page.waitForURL(/unit=/);
    await page.getByLabel("In the caller's words").fill(call.symptom);
    await page.getByText(call.urgency, { exact: true }).click();
    await page.getByLabel("Day", { exact: true }).fill(day);
    await page.getByLabel("From", { exact: true }).fill("08:00");
    await page.getByLabel("To", { exact: true }).fill("15:00");
    await page.getByLabel("Planned start").fill(`${day}T13:00`);
    await page.getByRole("checkbox", { name: new RegExp(technician) }).check();
    await chooseLike(page.getByLabel("Circuit to be opened"), /R-/);
    await page.getByLabel("Kind of job").selectOption({ label: "Leak repair" });
  }
  await page.getByRole("button", { name: "Save the call" }).click();
  const heading = page.getByRole("heading", { level: 1, name: /^(Call|Work order) \d+/ });
  return /\d+/.exec((await heading.textContent())!)![0];
}

async function chooseLike(list: Locator, words: RegExp): Promise<void> {
  await expect(list.locator("option").nth(1)).toBeAttached();
  const label = (await list.locator("option").allTextContents()).find((text) => words.test(text));
  await list.selectOption({ label: label! });
}

export const field = (page: Page) => page.getByRole("region", { name: "Visits by person" });
export const barOf = (page: Page, customer: string | RegExp) =>
  field(page).getByRole("button", { name: customer }).first();
export const edgeOf = (page: Page, customer: string) =>
  page.locator("[data-edge]").filter({ hasText: customer }).first();
/** What the board says went wrong; the framework keeps an alert of its own. */
export const alertOn = (page: Page) => page.getByRole("main").getByRole("alert");
export const rowOf = (page: Page, name: string) => page.locator("[data-row]").filter({ hasText: name });

/** A dispatcher's screen. */
export const openDesk = async (browser: Browser, email: string) => {
  const page = await pageOf(browser, email);
  await page.setViewportSize({ width: 1440, height: 900 });
  return page;
};
