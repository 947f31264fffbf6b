import { type Page, test } from "@playwright/test";
import { alertOn, BOARD, barOf, COMPANY, expect, giveHours, openDesk, takeCall } from "./board";
import { people } from "./people";

test.beforeAll(giveHours);

test("a day by keys alone: a call taken, placed, carried, refused, planned in part, taken back, and a second dispatcher told", async ({
  browser,
}) => {
  test.setTimeout(150_000);
  const page = await openDesk(browser, people.supervisor);
  const keys = page.keyboard;
  const line = async (on: Page, text: string) => {
    await on.locator("body").press(".");
    await expect(on.getByRole("combobox", { name: "Board command" })).toBeFocused();
    await on.keyboard.type(text);
    await expect(on.getByRole("option").first()).toBeVisible();
    await on.keyboard.press("Enter");
  };
  const carried = (on: Page) => on.locator(".board-ghost[data-fit]");

  // intake: the form in the order people speak, each field by the tabulator
  await page.goto(`/${COMPANY}/calls/new`);
  await page.getByRole("combobox", { name: "Customer", exact: true }).focus();
  await keys.type("Larkspur Apartments");
  await expect(page.getByRole("option", { name: "Larkspur Apartments" }).first()).toBeVisible();
  await keys.press("ArrowDown");
  await keys.press("Enter");
  await page.waitForURL(/customer=/);
  await page.getByLabel("In the caller's words").focus();
  await keys.type("Ice maker warm since the morning.");
  await page.getByRole("radio", { name: "Today" }).focus();
  await keys.press("Space");
  await page.getByRole("button", { name: "Save the call" }).focus();
  await keys.press("Enter");
  const heading = page.getByRole("heading", { level: 1, name: /^Call \d+/ });
  const number = /\d+/.exec((await heading.textContent())!)![0];
  const quarry = await takeCall(page, {
    customer: "Quarry Road School",
    symptom: "Gym cold again, hissing behind the panel.",
    urgency: "In the next days",
    planned: { unit: /Heat pump gym/, technician: "Tomas Reedley" },
  });

  // placed: it begins where it fits first, is carried by arrows, and set down
  await page.goto(BOARD);
  await line(page, `place ${number}`);
  await expect(carried(page)).toBeVisible();
  await keys.press("ArrowRight");
  await keys.press("ArrowLeft");
  await keys.press("Enter");
  const placed = barOf(page, /Larkspur Apartments/);
  await expect(placed).toBeFocused();
  const before = await placed.getAttribute("aria-label");

  // taken up and left where it was
  await keys.press("m");
  await expect(carried(page)).toBeVisible();
  await keys.press("ArrowRight");
  await keys.press("Escape");
  await expect(placed).toHaveAttribute("aria-label", before!);

  // an impossible row is refused
  await line(page, quarry);
  await expect(barOf(page, new RegExp(`Work order ${quarry}\\. Planned`))).toBeFocused();
  await keys.press("m");
  await keys.press("ArrowUp");
  await keys.press("ArrowUp");
  await expect(page.getByRole("status").filter({ hasText: "holds no competence" })).toBeAttached();
  await keys.press("Enter");
  await expect(alertOn(page)).toContainText("holds no competence for flammable refrigerants");

  // an emergency finds its place by a proposal, which is accepted in part and taken back
  const danger = await takeCall(page, {
    customer: "Harrow and Daughters Bakery",
    symptom: "Gas smell behind the ovens.",
    urgency: "Danger to people or goods",
  });
  await page.goto(BOARD);
  await line(page, "plan");
  const offered = page.getByRole("listitem").getByRole("checkbox");
  const ours = page.getByRole("checkbox", { name: new RegExp(`Call ${danger}, Harrow and Daughters Bakery, goes to`) });
  await expect(ours).toBeVisible();
  for (const each of await offered.all()) {
    await each.focus();
    await keys.press("Space");
  }
  await ours.focus();
  await keys.press("Space");
  await page.getByRole("button", { name: /^Accept (all|the 1 chosen)$/ }).focus();
  await keys.press("Enter");
  await expect(page.getByText("1 change accepted")).toBeVisible();
  await expect(barOf(page, /Harrow and Daughters Bakery/)).toBeVisible();
  await line(page, "undo");
  await expect(page.getByText("Taken back")).toBeVisible();
  await expect(page.locator("[data-edge]").filter({ hasText: `Call ${danger}` })).toBeVisible();

  // a second dispatcher who did not see the last change is told, and nothing is overwritten
  const second = await openDesk(browser, people.owner);
  await second.route("**/changes", (route) => route.abort());
  await second.goto(BOARD);
  await line(page, "larkspur");
  await expect(placed).toBeFocused();
  await keys.press("m");
  await keys.press("Shift+ArrowRight");
  await keys.press("Enter");
  await expect(placed).not.toHaveAttribute("aria-label", before!);
  await line(second, "larkspur");
  await expect(barOf(second, /Larkspur Apartments/)).toBeFocused();
  await second.keyboard.press("m");
  await second.keyboard.press("Shift+ArrowRight");
  await second.keyboard.press("Shift+ArrowRight");
  await second.keyboard.press("Enter");
  await expect(alertOn(second)).toContainText("Somebody was there before you.");
  await second.context().close();
  await page.context().close();
});
