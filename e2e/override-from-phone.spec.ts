import { expect, test } from "@playwright/test";
import { ask } from "./database";
import { planJob, takeCallWithOrder } from "./intake";
import { pageOf, people, signIn } from "./people";
import { press } from "./tablet-steps";

/*
 * A technician without a network asks for an override; the supervisor, on a phone, sees it come and answers; the answer shows on the
 * tablet by itself. Nobody loads a page again.
 */

const COMPANY = "fernhollow";
const PHONE = { width: 390, height: 844 };

test("an override asked for without a network is answered on a phone, and the answer comes to the tablet by itself", async ({
  browser,
}) => {
  const desk = await pageOf(browser, people.dispatcher);
  const { job } = await planJob(desk, COMPANY, {
    customer: "Larkspur Apartments",
    unit: "Split 4A",
    symptom: "Warm since yesterday.",
    technician: "Tomas Reedley",
  });
  await desk.context().close();
  const phone = await (await browser.newContext({ viewport: PHONE, hasTouch: true })).newPage();
  await signIn(phone, people.supervisor);
  await phone.goto(`/${COMPANY}/exceptions`);
  const tablet = await pageOf(browser, people.technician);
  await tablet.goto(`/t/${COMPANY}/jobs/${job}`);
  await expect(tablet.getByRole("navigation", { name: "Steps of this job" })).toBeVisible();
  await tablet.evaluate(() => navigator.serviceWorker.ready.then(() => undefined)); // the whole program is kept here

  await tablet.context().setOffline(true);
  await press(tablet, "Cannot do this");
  await press(tablet, /Ask a supervisor to allow/);
  const why = "The disconnect is locked by the landlord, who is on his way.";
  await tablet.getByLabel(/Why it cannot be done/).fill(why);
  await press(tablet, "Ask the supervisor");
  await expect(tablet.getByText("Supervisor asked").first()).toBeVisible();
  await expect(phone.getByText(why)).toHaveCount(0);

  await tablet.context().setOffline(false);
  const asked = phone.getByRole("article").filter({ hasText: why });
  await expect(asked).toBeVisible({ timeout: 30_000 });
  await phone.screenshot({ path: `${test.info().project.outputDir}/override/phone.png`, fullPage: true });
  expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  for (const name of ["Refuse", "Allow, as weak proof"]) {
    const box = await asked.getByRole("button", { name }).boundingBox();
    expect(box!.height, name).toBeGreaterThanOrEqual(24); // WCAG 2.2, 2.5.8: 24 by 24 CSS pixels at least
  }
  await asked.getByLabel("Your reason").fill("Wait for him; go on with the meter read twice.");
  await asked.getByRole("button", { name: "Allow, as weak proof" }).click();
  await expect(asked).toHaveCount(0);

  await expect(tablet.getByText("Overridden").first()).toBeVisible({ timeout: 10_000 });
  const rows = await ask("select 1 from entry where kind = 'override-asked' and wire #>> '{body,why}' = $1", [why]);
  expect(rows).toHaveLength(1);
  await phone.context().close();
  await tablet.context().close();
});

test("the board and the jobs show what was planned elsewhere without being loaded again", async ({ browser }) => {
  const board = await pageOf(browser, people.dispatcher);
  await board.goto(`/${COMPANY}/board`);
  const bars = board
    .getByRole("region", { name: "Visits by person" })
    .getByRole("button", { name: /Larkspur Apartments/ });
  const jobs = await board.context().newPage(); // a second tab follows through the first one's connection
  await jobs.goto(`/${COMPANY}/jobs`);
  const jobCount = await jobs.getByRole("row").count();
  await expect(bars).not.toHaveCount(0);
  const visitCount = await bars.count();

  const desk = await pageOf(browser, people.dispatcher);
  await takeCallWithOrder(desk, COMPANY, {
    customer: "Larkspur Apartments",
    unit: "Split 4A",
    symptom: "Ice on the suction line.",
    technician: "Tomas Reedley",
    circuit: /R-410A/,
    kindOfJob: "Leak repair",
  });
  await expect(bars).toHaveCount(visitCount + 1, { timeout: 15_000 });
  await jobs.bringToFront();
  await expect(jobs.getByRole("row")).toHaveCount(jobCount + 1, { timeout: 15_000 });
  await desk.context().close();
  await board.context().close();
});
