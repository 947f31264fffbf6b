import { type Locator, type Page, test } from "@playwright/test";
import { alertOn, BOARD, barOf, COMPANY, edgeOf, expect, field, giveHours, openDesk, rowOf, takeCall } from "./board";
import { ask } from "./database";
import { pageOf, people } from "./people";

test.beforeAll(giveHours);

/** Takes something up with the mouse and sets it down on a person's row at an hour. */
async function drag(page: Page, what: Locator, person: string, clock: string): Promise<void> {
  await what.scrollIntoViewIfNeeded();
  const from = (await what.boundingBox())!;
  const row = (await rowOf(page, person).boundingBox())!;
  const hour = (await field(page).getByText(clock, { exact: true }).first().boundingBox())!;
  await page.mouse.move(from.x + 12, from.y + 12);
  await page.mouse.down();
  await page.mouse.move(hour.x + hour.width / 2, row.y + 20, { steps: 8 });
  await page.mouse.move(hour.x + hour.width / 2 + 12, row.y + 22, { steps: 2 });
  await page.waitForTimeout(50);
  await page.mouse.up();
}

test("a day by hand: calls placed, an impossible place refused, an emergency, a plan in part, a step back, two dispatchers, the tablet", async ({
  browser,
}) => {
  test.setTimeout(150_000);
  const page = await openDesk(browser, people.dispatcher);
  await takeCall(page, { customer: "Bellweather Grocers", symptom: "Walk-in at nine degrees.", urgency: "Today" });
  await takeCall(page, {
    customer: "Quarry Road School",
    symptom: "Gym cold, hissing behind the panel.",
    urgency: "In the next days",
    planned: { unit: /Heat pump gym/, technician: "Tomas Reedley" },
  });

  await page.goto(BOARD);
  await drag(page, edgeOf(page, "Bellweather Grocers"), "Ines Caldermoor", "10:00");
  await expect(rowOf(page, "Ines Caldermoor").getByRole("button", { name: /Bellweather Grocers/ })).toBeVisible();
  await expect(page.getByText(/Call \d+ placed/)).toBeVisible();

  await drag(page, barOf(page, /Quarry Road School/), "Ines Caldermoor", "13:00");
  await expect(alertOn(page)).toContainText("Ines Caldermoor holds no competence for flammable refrigerants.");
  await expect(alertOn(page)).toContainText("It stayed where it was.");
  await expect(rowOf(page, "Tomas Reedley").getByRole("button", { name: /Quarry Road School/ })).toBeVisible();
  await page.getByRole("button", { name: "Understood" }).click();

  await drag(page, barOf(page, /Quarry Road School/), "Tomas Reedley", "16:00");
  await expect(page.getByRole("dialog", { name: "It does not fit there" })).toContainText(
    "after its promise, 08:00 to 15:00",
  );
  await page.getByRole("button", { name: "Leave it" }).click();

  await takeCall(page, {
    customer: "Harrow and Daughters Bakery",
    symptom: "Gas smell in the bakehouse.",
    urgency: "Danger to people or goods",
  });
  await page.goto(BOARD);
  await expect(page.locator("[data-edge]").first()).toContainText("Harrow and Daughters Bakery");
  await edgeOf(page, "Harrow and Daughters Bakery").click();
  await page.getByRole("button", { name: "Find a place" }).click();
  await expect(page.getByText("1 new. Nothing else moves, and nothing before you accept.")).toBeVisible();
  await expect(page.locator("[data-ghost]")).toHaveCount(1);
  await page.getByRole("button", { name: "Accept all" }).click();
  await expect(barOf(page, /Harrow and Daughters Bakery/)).toBeVisible();

  await page.getByRole("button", { name: "Undo" }).last().click();
  await expect(edgeOf(page, "Harrow and Daughters Bakery")).toBeVisible();

  await page.getByRole("button", { name: "Plan the day", exact: true }).click();
  const offered = page.getByRole("listitem").getByRole("checkbox");
  await expect(offered.first()).toBeVisible();
  for (const each of await offered.all()) await each.uncheck();
  await page.getByRole("checkbox", { name: /Willowbend Dental, goes to/ }).check();
  await page.getByRole("button", { name: "Accept the 1 chosen" }).click();
  await expect(page.getByText("1 change accepted")).toBeVisible();
  await expect(barOf(page, /Willowbend Dental/)).toBeVisible();
  await expect(barOf(page, /^10:00 to .* Bellweather Grocers/)).toBeVisible();

  const second = await openDesk(browser, people.owner);
  await second.route("**/changes", (route) => route.abort()); // sees nothing of what the first does
  await second.goto(BOARD);
  await drag(page, barOf(page, /Bellweather Grocers/), "Ines Caldermoor", "14:00");
  await expect(barOf(page, /^14:\d\d to .* Bellweather Grocers/)).toBeVisible();
  await expect(page.getByText(/Work order \d+ placed/)).toBeVisible();
  await drag(second, barOf(second, /Bellweather Grocers/), "Ines Caldermoor", "12:00");
  await expect(alertOn(second)).toContainText("Somebody was there before you.");
  await expect(alertOn(second)).toContainText(
    /Ada Brookstone placed it .* now it starts at 14:\d\d with Ines Caldermoor/,
  );
  await expect(barOf(second, /^14:\d\d to .* Bellweather Grocers/)).toBeVisible();
  await second.context().close();
  await page.context().close();

  const tablet = await pageOf(browser, people.secondTechnician);
  await tablet.goto(`/t/${COMPANY}`);
  await expect(tablet.getByText("Bellweather Grocers").first()).toBeVisible();
  await tablet.context().close();

  // the customer looks at the visit by its page, on a phone, until it is taken back
  const office = await openDesk(browser, people.dispatcher);
  await office.goto(`/${COMPANY}/work-orders/${await orderIdOf("Willowbend Dental")}`);
  await office.getByRole("button", { name: "Make a page for the customer" }).click();
  const address = (await office.getByRole("link", { name: /\/visit\// }).getAttribute("href"))!;
  const phone = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  await phone.goto(new URL(address).pathname);
  await expect(phone.getByRole("heading", { name: "Planned" })).toBeVisible();
  await expect(phone.getByText(/, about \d\d:\d\d$/)).toBeVisible();
  await expect(phone.getByText(/^(Tomas|Ines)$/)).toBeVisible();
  await office.getByRole("button", { name: "Take the customer's page back" }).click();
  await expect(office.getByRole("button", { name: "Make a page for the customer" })).toBeVisible();
  await phone.reload();
  await expect(phone.getByRole("heading", { name: "This address was taken back" })).toBeVisible();
  await phone.context().close();
  await office.context().close();
});

/** The order of the customer's visit planned last. */
async function orderIdOf(customer: string): Promise<string> {
  const [row] = await ask<{ id: string }>(
    `select o.id from work_order o join service_call c on c.tenant_id = o.tenant_id and c.id = o.service_call_id
     join customer u on u.tenant_id = c.tenant_id and u.id = c.customer_id where u.name = $1 order by o.opened_at desc limit 1`,
    [customer],
  );
  return row!.id;
}
