import { expect, type Page, test } from "@playwright/test";
import { ask } from "./database";
import { companyToday, takeCallWithOrder } from "./intake";
import { pageOf, people } from "./people";

const COMPANY = "fernhollow";
let page: Page;
test.describe.configure({ mode: "serial" });
test.beforeAll(async ({ browser }) => {
  page = await pageOf(browser, people.dispatcher);
});
test.afterAll(() => page.context().close());

test("a new customer's call is taken: customer, site and unit first, then the call", async () => {
  await page.goto(`/${COMPANY}/calls/new`);
  await page.getByRole("link", { name: "Add a new customer" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Thistle Lane Laundry");
  await page.getByLabel("Phone").fill("555-0188");
  await page
    .getByRole("button", { name: /save|add/i })
    .first()
    .click();
  await expect(page.getByRole("heading", { level: 1, name: "Thistle Lane Laundry" })).toBeVisible();
  await page
    .getByRole("link", { name: /add a site|new site/i })
    .first()
    .click();
  await page.getByLabel("Name of the site").fill("Laundry");
  await page.getByLabel("Time zone").fill("America/Chicago");
  await page.getByLabel("Street and number").fill("4 Thistle Lane");
  await page
    .getByRole("button", { name: /save|add/i })
    .first()
    .click();
  await expect(page.getByRole("heading", { level: 1, name: /Laundry/ })).toBeVisible();
  await page.goto(`/${COMPANY}/calls/new`);
  await page.getByRole("combobox", { name: "Customer", exact: true }).fill("thistle");
  await page
    .getByRole("option", { name: /Thistle Lane Laundry/ })
    .first()
    .click();
  await page.getByLabel("In the caller's words").fill("Chiller is warm, steam everywhere.");
  await page.getByLabel("Who is on the phone").fill("Mrs. Fennel");
  await page.getByText("Danger to people or goods").click();
  await page.getByRole("button", { name: "Save the call" }).click();
  await expect(page.getByRole("heading", { level: 1, name: /^Call \d+/ })).toBeVisible();
  await expect(page.getByText("Waiting for an order")).toBeVisible();
  await page.goto(`/${COMPANY}/calls`);
  await expect(page.getByText("Thistle Lane Laundry").first()).toBeVisible();
});

test("what is missing is said at its field, and nothing is saved", async () => {
  const before = await ask("select 1 from service_call");
  await page.goto(`/${COMPANY}/calls/new`);
  await page.getByRole("combobox", { name: "Customer", exact: true }).fill("thistle");
  await page
    .getByRole("option", { name: /Thistle Lane Laundry/ })
    .first()
    .click();
  await page.getByLabel("Day", { exact: true }).fill(companyToday());
  await page.getByLabel("From", { exact: true }).fill("12:00");
  await page.getByLabel("To", { exact: true }).fill("08:00");
  await page.getByRole("button", { name: "Save the call" }).click();
  await expect(page.getByText("Say what is wrong, in the caller's words.")).toBeVisible();
  await expect(page.getByLabel("From", { exact: true })).toHaveValue("12:00"); // what was typed stays
  await page.getByLabel("In the caller's words").fill("Warm");
  await page.getByRole("button", { name: "Save the call" }).click();
  await expect(page.getByText("The window must end after it begins.")).toBeVisible();
  expect(await ask("select 1 from service_call")).toHaveLength(before.length);
});

let order: string;

/** The order's own bar, where it stands at this hour: others of the same customer may stand beside it. */
async function barAt(clock: string) {
  const [visit] = await ask<{ id: string }>(
    `select v.id from visit v join work_order o on o.tenant_id = v.tenant_id and o.id = v.work_order_id
     join gate.company g on g.id = o.tenant_id where g.slug = $1 and o.number = $2`,
    [COMPANY, order],
  );
  return page.locator(`[data-bar="${visit!.id}"][aria-label^="${clock} to "]`);
}

test("a call is planned, assigned and seen on the board", async () => {
  order = await takeCallWithOrder(page, COMPANY, {
    customer: "Willowbend Dental",
    unit: "Rooftop 1",
    symptom: "Blows warm, compressor hums.",
    technician: "Tomas Reedley",
    circuit: /R-410A/,
    kindOfJob: "Compressor change",
  });
  await page.goto(`/${COMPANY}/board`);
  await expect(await barAt("13:00")).toBeVisible();
});

async function openOrder(number: string): Promise<string> {
  const [row] = await ask<{ id: string }>(
    "select o.id from work_order o join gate.company g on g.id = o.tenant_id where g.slug = $1 and o.number = $2",
    [COMPANY, number],
  );
  await page.goto(`/${COMPANY}/work-orders/${row!.id}`);
  return row!.id;
}

test("an order whose work is not proven is not done, and says which job stands in the way", async () => {
  await openOrder(order);
  await page.getByRole("button", { name: "Work order is done" }).click();
  await expect(page.getByRole("alert").filter({ hasText: /A visit is still to come|Not proven yet/ })).toBeVisible();
});

test("a plan somebody else changed meanwhile is not overwritten", async () => {
  const id = await openOrder(order);
  await ask("update visit set version = version + 1 where work_order_id = $1", [id]);
  await page.getByLabel("Planned start").first().fill(`${companyToday()}T15:00`);
  await page.getByRole("button", { name: "Save the plan" }).click();
  await expect(page.getByText(/Somebody changed this visit meanwhile/)).toBeVisible();
  const [visit] = await ask<{ local: string }>(
    "select to_char(planned_start at time zone 'America/Chicago', 'HH24:MI') as local from visit where work_order_id = $1",
    [id],
  );
  expect(visit!.local).toBe("13:00");
});

test("it is planned anew, cancelled, and then neither planned nor ended again", async () => {
  const id = await openOrder(order);
  await page.getByLabel("Planned start").first().fill(`${companyToday()}T15:00`);
  await page.getByRole("button", { name: "Save the plan" }).click();
  await expect(page.getByText(/starts .*15:00/)).toBeVisible();
  const stale = await page.context().newPage();
  await stale.goto(`/${COMPANY}/work-orders/${id}`);
  await page.getByRole("button", { name: "Cancel the work order" }).click();
  await expect(page.getByText("Cancelled").first()).toBeVisible();
  await expect(page.getByRole("button", { name: "Cancel the work order" })).toBeHidden();
  await stale.getByRole("button", { name: "Work order is done" }).click();
  await expect(stale.getByText("The work order has ended already.")).toBeVisible();
  await stale.close();
  await page.goto(`/${COMPANY}/board`);
  await expect(page.getByRole("region", { name: "Visits by person" })).toBeVisible();
  await expect(await barAt("15:00")).toHaveCount(0);
});

test("a call is taken with the keyboard alone", async () => {
  await page.goto(`/${COMPANY}/calls/new`);
  await page.getByRole("combobox", { name: "Customer", exact: true }).focus();
  await page.keyboard.type("thistle");
  await expect(page.getByRole("option", { name: /Thistle Lane Laundry/ }).first()).toBeVisible();
  await page.keyboard.press("Enter");
  await page.waitForURL(/customer=/);
  const symptom = page.getByLabel("In the caller's words");
  await expect(symptom).toBeVisible();
  await tabTo(page, (label) => label === "symptom");
  await page.keyboard.type("Dryer room is hot.");
  await tabTo(page, (label) => label === "urgency");
  await page.keyboard.press("ArrowRight");
  await tabTo(page, (label) => label === "Save the call");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1, name: /^Call \d+/ })).toBeVisible();
  await expect(page.getByText("Dryer room is hot.")).toBeVisible();
});

/** Presses Tab until the focus is on the field of this name, or the button of these words. */
async function tabTo(on: Page, isIt: (label: string) => boolean): Promise<void> {
  for (let n = 0; n < 40; n += 1) {
    const label = await on.evaluate(() => {
      const at = document.activeElement as HTMLInputElement | null;
      return at?.name || at?.textContent?.trim() || "";
    });
    if (isIt(label)) return;
    await on.keyboard.press("Tab");
  }
  throw new Error("the focus never came there");
}
