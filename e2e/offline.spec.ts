import { readFileSync, writeFileSync } from "node:fs";
import { type Browser, type BrowserContext, expect, type Page, test } from "@playwright/test";
import { ask } from "./database";
import { dryHold, nitrogenTable, pulldownTable } from "./gauge-records";
import { type PlannedJob, planJob } from "./intake";
import { pageOf, people, signIn } from "./people";
import * as tablet from "./tablet-steps";

/*
 * The cellar: the tablet's program is kept, the network goes, the whole job is done, pages are reloaded and killed on the way,
 * and what was recorded is on the server once and in order when the network is back. On the built app: nothing is kept in development.
 */

const COMPANY = "fernhollow";
const TECHNICIAN = people.secondTechnician;
test.describe.configure({ mode: "serial" });

let whole: PlannedJob;
let shared: PlannedJob;
const makeWork = (page: Page, customer: string, unit: string) =>
  planJob(page, COMPANY, { customer, unit, technician: "Ines Caldermoor", symptom: "Cools too little in the cellar." });

/** A tablet of its own whose program and day have been kept; from here on it needs no network. */
async function preparedTablet(browser: Browser, work: PlannedJob): Promise<BrowserContext> {
  const context = await browser.newContext({ viewport: { width: 820, height: 1180 }, hasTouch: true });
  const page = await context.newPage();
  await signIn(page, TECHNICIAN);
  const fetched = page.waitForResponse(new RegExp(`/jobs/${work.job}/log`), { timeout: 20_000 });
  await page.goto(`/t/${COMPANY}`);
  await fetched;
  await keptProgram(page);
  await page.close();
  await context.setOffline(true);
  return context;
}

async function keptProgram(page: Page): Promise<void> {
  const state = await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    while (registration.active?.state !== "activated") await new Promise((done) => setTimeout(done, 50));
    return { scope: new URL(registration.scope).pathname, caches: (await caches.keys()).length };
  });
  expect(state).toEqual({ scope: "/t/", caches: 1 });
}

async function openJob(context: BrowserContext, { job }: PlannedJob): Promise<Page> {
  const page = await context.newPage();
  page.setDefaultTimeout(20_000);
  await page.goto(`/t/${COMPANY}/jobs/${job}`);
  await expect(page.getByRole("navigation", { name: "Steps of this job" })).toBeVisible();
  return page;
}

/** The judges work beside the page; where their worker had not started, the page would have ended it and judged by itself. */
async function expectWorker(page: Page): Promise<void> {
  expect(page.workers()).toHaveLength(1);
  const judged = await page.workers()[0]!.evaluate(() => performance.getEntriesByType("resource").length);
  expect(judged).toBeGreaterThan(0); // its own scripts came
}

/** Ends the page's process at once: no handler of the page runs. */
async function kill(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const crashed = page.waitForEvent("crash");
  session.send("Page.crash").catch(() => undefined); // there is nobody left to answer
  await crashed;
  await page.close();
}

interface Received {
  readonly id: string;
  readonly seq: number;
  readonly installation: string;
  readonly kind: string;
  readonly heads: string[];
}

async function entriesOf({ job }: PlannedJob): Promise<Received[]> {
  return ask<Received>(
    `select id, seq, installation_id as installation, kind, array(select jsonb_array_elements_text(wire->'heads')) as heads
     from entry where job_id = $1 order by received_seq`,
    [job],
  );
}

const stateOf = async ({ job }: PlannedJob) =>
  (await ask<{ state: string }>("select state from circuit_job where id = $1", [job]))[0]!.state;

test("two jobs are planned for a technician", async ({ browser }) => {
  const page = await pageOf(browser, people.dispatcher);
  whole = await makeWork(page, "Harrow and Daughters Bakery", "Shop split");
  shared = await makeWork(page, "Larkspur Apartments", "Split 4A");
  await page.context().close();
});

test("a whole job is done with no network, through a reload and a kill, and arrives once and in order", async ({
  browser,
}) => {
  test.setTimeout(240_000);
  const context = await preparedTablet(browser, whole);
  let page = await context.newPage();
  await page.goto(`/t/${COMPANY}`);
  await expect(page.getByText("Harrow and Daughters Bakery").first()).toBeVisible();
  await page.close();

  page = await openJob(context, whole);
  await tablet.agreeByPhone(page, "400");
  await tablet.makeSafe(page);
  await tablet.goOn(page);
  await tablet.recover(page);
  await tablet.goOn(page);
  await tablet.openAndRepair(page);
  await tablet.goOn(page);
  await tablet.answer(page, "The low side is part of the test", "Yes");
  await page.waitForTimeout(600); // a quarter second after the last touch it is on disk
  await kill(page);

  page = await openJob(context, whole);
  await expect(
    page.getByRole("group", { name: "The low side is part of the test" }).getByRole("radio", { name: "Yes" }),
  ).toBeChecked();
  await tablet.pressureTest(page, nitrogenTable(1610));
  await tablet.goOn(page);
  await tablet.leakCheck(page, "Liquid drier in");
  await tablet.goOn(page);
  await tablet.evacuate(page, pulldownTable());
  await tablet.goOn(page);

  await tablet.press(page, "Valve closed: start the hold");
  const pad = page.getByRole("dialog");
  await pad.getByRole("textbox").fill("300");
  await pad.getByRole("button", { name: "Keep" }).click();
  await expect(page.getByText("1 reading so far")).toBeVisible();
  await page.waitForTimeout(600);
  await page.reload();
  await expect(page.getByText("1 reading so far")).toBeVisible();
  await expect(page.getByText(/of 10:00/)).toBeVisible(); // the clock of the hold ran on
  await tablet.hold(page, dryHold);
  await expectWorker(page);
  await tablet.recordSettled(page, "Record the hold");
  await tablet.goOn(page);
  await tablet.chargeByNameplate(page, 5.7);
  await tablet.goOn(page);
  await tablet.coresAndCaps(page);
  await tablet.goOn(page);
  await tablet.performanceCheck(page);
  await tablet.goOn(page);
  await tablet.signRecords(page, "B. Harrow");
  await tablet.closeJob(page);
  await expect(page.getByText(/Saved here, \d+ to send/)).toBeVisible();
  const before = await entriesOf(whole);
  expect(before.map(({ kind }) => kind)).toEqual(["job-opened"]); // the office's; nothing has left the tablet
  expect(await stateOf(whole)).not.toBe("closed");

  await context.setOffline(false);
  await expect(page.getByText("Sent", { exact: true })).toBeVisible({ timeout: 20_000 });
  await expect.poll(() => stateOf(whole), { timeout: 20_000 }).toBe("closed");
  const mine = (await entriesOf(whole)).slice(before.length);
  expect(mine.map(({ seq }) => seq)).toEqual(mine.map((_, index) => index + 1));
  expect(new Set(mine.map(({ id }) => id)).size).toBe(mine.length);
  expect(mine.at(-1)?.kind).toBe("job-closed");
  await expectPictures(browser);
  await context.close();
});

/** The photo and the signature came after the log, small and saying nothing of the place; the supervisor sees both and erases one. */
async function expectPictures(browser: Browser) {
  const kept = () =>
    ask<{ bytes: Buffer | null }>("select bytes from job_picture where job_id = $1 order by id", [whole.job]);
  await expect.poll(async () => (await kept()).length, { timeout: 20_000 }).toBe(2);
  for (const { bytes } of await kept()) {
    expect(bytes!.length).toBeLessThan(500_000);
    expect(bytes!.includes("Exif") || bytes!.includes("51 N")).toBe(false);
  }
  const page = await pageOf(browser, people.supervisor);
  await page.goto(`/${COMPANY}/jobs/${whole.job}`);
  await expect(page.getByText("Up to 400.00 USD, B. Harrow for the bakery, by phone").first()).toBeVisible();
  for (const name of [/^Leak check: Liquid drier in/, /^Signature for the customer/]) {
    const picture = page.getByRole("img", { name });
    await picture.scrollIntoViewIfNeeded();
    await expect.poll(() => picture.evaluate((shown: HTMLImageElement) => shown.naturalWidth)).toBeGreaterThan(100);
  }
  await page.getByText(/^Erase.*Signature/).click();
  await page.getByRole("button", { name: "Erase for good" }).click();
  await expect(page.getByText("Erased", { exact: true })).toBeVisible();
  expect((await kept()).map(({ bytes }) => bytes === null)).toEqual([false, true]);
  await page.context().close();
}

test("two tablets without a network on one job: all of both arrives once, and both see the same job", async ({
  browser,
}) => {
  test.setTimeout(120_000);
  const contexts = [await preparedTablet(browser, shared), await preparedTablet(browser, shared)] as const;
  const pages = [await openJob(contexts[0], shared), await openJob(contexts[1], shared)] as const;
  await tablet.makeSafe(pages[0]);
  await tablet.goOn(pages[0]);
  await tablet.recover(pages[0]);
  await tablet.makeSafe(pages[1]);
  await contexts[1].setOffline(false);
  await expect(pages[1].getByText("Sent", { exact: true })).toBeVisible({ timeout: 20_000 });
  await contexts[0].setOffline(false);
  await expect(pages[0].getByText("Sent", { exact: true })).toBeVisible({ timeout: 20_000 });

  const received = await entriesOf(shared);
  const tablets = new Set(received.slice(1).map(({ installation }) => installation));
  const sequences = [...tablets].map((id) => received.filter((each) => each.installation === id).map(({ seq }) => seq));
  expect(sequences.sort()).toEqual([[1], [1, 2]]);
  const ladders: (string | null)[] = [];
  for (const page of pages) {
    const logRead = page.waitForResponse(new RegExp(`/jobs/${shared.job}/log`));
    await page.reload();
    await logRead;
    await expect(page.getByText("Sent", { exact: true })).toBeVisible({ timeout: 20_000 });
    await page.waitForTimeout(500);
    ladders.push(await page.getByRole("navigation", { name: "Steps of this job" }).textContent());
  }
  expect(ladders[0]).toBe(ladders[1]);
  for (const context of contexts) await context.close();
});

test("who signs out with unsent work leaves nothing to read, and sends it after signing in again", async ({
  browser,
}) => {
  test.setTimeout(120_000);
  const context = await preparedTablet(browser, shared);
  let page = await openJob(context, shared);
  await page.goto(`/t/${COMPANY}/jobs/${shared.job}?step=open_repair`);
  await tablet.openAndRepair(page);
  await expect(page.getByText("Saved here, 1 to send")).toBeVisible();
  await page.goto(`/t/${COMPANY}/sign-out`);
  await expect(page.getByText("One thing is not sent yet")).toBeVisible();
  await page.getByRole("button", { name: "Lock it away and sign out" }).click();
  await expect(page.getByText("Nobody is signed in on this tablet, and there is no network.")).toBeVisible();
  await context.setOffline(false);
  await page.reload();
  await expect(page.getByText("Nobody is signed in on this tablet", { exact: true })).toBeVisible();

  await page.close();
  page = await context.newPage();
  await signIn(page, people.technician);
  await expect(page.getByText("Sent", { exact: true })).toBeVisible({ timeout: 20_000 });
  expect(await inTheClear(page)).not.toMatch(/Leaking flare|Harrow|Ines/);
  await page.goto(`/t/${COMPANY}/sign-out`);
  await page.getByRole("button", { name: "Sign out", exact: true }).click();
  await expect(page.getByText("Nobody is signed in on this tablet", { exact: true })).toBeVisible();

  const before = (await entriesOf(shared)).length;
  await signIn(page, TECHNICIAN);
  await page.goto(`/t/${COMPANY}`);
  await expect.poll(async () => (await entriesOf(shared)).length, { timeout: 20_000 }).toBe(before + 1);
  await context.close();
});

/** All that can be read from the tablet's disk without a key. */
function inTheClear(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const settled = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await settled(indexedDB.open("dryhold"));
    const names = [...database.objectStoreNames];
    const transaction = database.transaction(names);
    const rows = await Promise.all(names.map((name) => settled(transaction.objectStore(name).getAll())));
    database.close();
    return JSON.stringify(rows);
  });
}

test("a newer program is offered between jobs and never taken by itself", async ({ browser }) => {
  const file = ".next/service-worker.js";
  const built = readFileSync(file);
  const page = await pageOf(browser, TECHNICIAN);
  await page.goto(`/t/${COMPANY}`);
  try {
    await keptProgram(page);
    writeFileSync(file, `${built}\n// newer`);
    await page.reload();
    await expect(page.getByText("A newer version of the tablet is ready.")).toBeVisible();
    await page.goto(`/t/${COMPANY}/jobs/${shared.job}`);
    await expect(page.getByRole("navigation", { name: "Steps of this job" })).toBeVisible();
    await expect(page.getByText("A newer version of the tablet is ready.")).toBeHidden();
    await page.goto(`/t/${COMPANY}`);
    const loaded = page.waitForEvent("load");
    await page.getByRole("button", { name: "Use it now" }).click();
    await loaded;
    await expect(page.getByText("Sent", { exact: true })).toBeVisible({ timeout: 20_000 });
    await expect(page.getByText("A newer version of the tablet is ready.")).toBeHidden();
  } finally {
    writeFileSync(file, built);
    await page.context().close();
  }
});
