import { readFile } from "node:fs/promises";
import { expect, type Page, test } from "@playwright/test";
import { readPdf } from "../tests/certificate/read-pdf";
import { ask } from "./database";
import { pageOf, people } from "./people";

const NAMES = /Willowbend|Orchard Row|Tomas|Marek|Ada Brookstone/;

/** The demo's closed job. */
async function closedJob(): Promise<string> {
  const [row] = await ask<{ id: string }>(
    "select j.id from circuit_job j join gate.company g on g.id = j.tenant_id where g.slug = 'fernhollow' and j.state = 'closed' order by j.number limit 1",
  );
  return row!.id;
}

/** Presses the button and reads the paper it gives: its text, and the address printed on it. */
async function download(page: Page, button: string): Promise<{ text: string; address: string }> {
  const downloading = page.waitForEvent("download");
  await page.getByRole("button", { name: button }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toMatch(/^certificate-job-\d+\.pdf$/);
  const { text, alts } = await readPdf(new Uint8Array(await readFile(await download.path())));
  const address = alts.join(" ").match(/Square code of the address (\S+)/)?.[1];
  expect(address).toMatch(/^http:\/\/localhost:\d+\/check\/[\w-]{24}$/);
  return { text, address: address! };
}

async function expectCheck(page: Page, address: string, answer: string): Promise<void> {
  await page.goto(address);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(answer);
}

test("a certificate is downloaded, checked by a stranger, fails when an entry is changed, and is taken back", async ({
  browser,
}) => {
  const job = await closedJob();
  const office = await pageOf(browser, people.dispatcher);
  const stranger = await (await browser.newContext()).newPage();

  await office.goto(`/fernhollow/jobs/${job}`);
  await office.getByRole("link", { name: "Certificate" }).click();
  const { text, address } = await download(office, "Download the certificate");
  expect(text).toContain("Tested tight and dry");
  expect(text).toContain("Willowbend Dental");

  await expectCheck(stranger, address, "This paper matches the record");
  await expect(stranger.getByText("Fernhollow Cooling (invented)")).toBeVisible();
  expect(await stranger.content()).not.toMatch(NAMES);
  await expect(stranger.locator('meta[name="robots"]')).toHaveAttribute("content", /noindex/);
  await expect(stranger.locator('meta[name="referrer"]')).toHaveAttribute("content", "no-referrer");

  const hold = "job_id = $1 and wire #>> '{body,step}' = 'hold'";
  const [before] = await ask<{ wire: object }>(`select wire from entry where ${hold}`, [job]);
  await ask(
    `update entry set wire = jsonb_set(wire, '{body,evidence,record,readings,60,micron}', '399') where ${hold}`,
    [job],
  );
  await expectCheck(stranger, address, "This paper does not match the record");
  await ask(`update entry set wire = $2 where ${hold}`, [job, JSON.stringify(before!.wire)]);
  await expectCheck(stranger, address, "This paper matches the record");

  await office.getByRole("button", { name: "Take back" }).click();
  await expect(office.getByText(/^Taken back .* by Ada Brookstone$/)).toBeVisible();
  await expectCheck(stranger, address, "This paper's address was taken back");
  const events = await ask<{ what: string }>(
    "select what from office_event where subject_id = $1 and what like 'certificate-link-%' order by at",
    [job],
  );
  expect(events.map(({ what }) => what)).toEqual(["certificate-link-made", "certificate-link-revoked"]);

  const wrong = address.replace(/[\w-]{24}$/, "A".repeat(24));
  await expectCheck(stranger, wrong, "No paper is known at this address");
  for (let guess = 1; guess < 60; guess += 1) await stranger.request.get(wrong);
  await expectCheck(stranger, wrong, "Too many wrong addresses came from here");
  await ask("delete from gate.guess where key like 'check:%'");
});

test("a certificate made on a tablet with no network is the office's, and can be checked once its address is sent", async ({
  browser,
}) => {
  const job = await closedJob();
  const office = await pageOf(browser, people.dispatcher);
  const tablet = await pageOf(browser, people.technician);
  const stranger = await (await browser.newContext()).newPage();
  await tablet.goto(`/t/fernhollow/jobs/${job}?step=closing`);
  await expect(tablet.getByRole("button", { name: "Download the certificate" })).toBeVisible({ timeout: 20_000 });
  await tablet.evaluate(() => navigator.serviceWorker.ready.then(() => undefined)); // the whole program is kept here

  await tablet.context().setOffline(true);
  await tablet.reload();
  await expect(tablet.getByRole("button", { name: "Download the certificate" })).toBeVisible({ timeout: 20_000 });
  const { text, address } = await download(tablet, "Download the certificate");
  await expect(tablet.getByText("Its address is saved here, and can be checked once it is sent")).toBeVisible();
  await expectCheck(stranger, address, "No paper is known at this address");

  await tablet.context().setOffline(false);
  await expect(tablet.getByText("Its address is sent")).toBeVisible({ timeout: 15_000 });
  await expectCheck(stranger, address, "This paper matches the record");

  await office.goto(`/fernhollow/jobs/${job}/certificate`);
  const served = await download(office, "Download the certificate");
  const plain = (paper: { text: string; address: string }) =>
    paper.text.replaceAll(" ", "").replaceAll(paper.address.slice(-24), "TOKEN");
  expect(plain({ text, address })).toBe(plain(served));
  await ask("delete from gate.guess where key like 'check:%'");
});
