import { expect, type Page, test } from "@playwright/test";
import { v7 as uuidv7 } from "uuid";
import { CompanyId, EntryId, InstallationId, JobId, PersonId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { headsOf, makeEntry, stamped } from "@/lib/sync/protocol";
import { fieldWork } from "@/prisma/demo/history/past-work";
import { ask } from "./database";
import { planJob } from "./intake";
import { pageOf, people, signIn } from "./people";

/*
 * A job closed two weeks ago with a gauge out of date; the same circuit comes back; the supervisor confirms it; the owner, on a phone,
 * finds it on the chart and opens the job from there.
 */

const COMPANY = "fernhollow";
const PHONE = { width: 390, height: 844 };
const DAY_MS = 86_400_000;

test("a weakly proven job comes back after two weeks, is confirmed, and opens from the owner's chart", async ({
  browser,
}) => {
  test.setTimeout(180_000);
  const desk = await pageOf(browser, people.dispatcher);
  const unit = { customer: "Willowbend Dental", unit: "Rooftop 1", technician: "Tomas Reedley" };
  const first = await planJob(desk, COMPANY, { ...unit, symptom: "Warm air, leak suspected." });
  const tablet = await pageOf(browser, people.technician);
  await sendWeakJob(tablet, first.job, new Date(Date.now() - 14 * DAY_MS));
  await tablet.context().close();

  await planJob(desk, COMPANY, { ...unit, symptom: "Warm air again, two weeks later." });
  await desk.context().close();

  const supervisor = await pageOf(browser, people.supervisor);
  await supervisor.goto(`/${COMPANY}/quality/decisions`);
  await supervisor.getByRole("link", { name: /callbacks to decide/ }).click();
  const row = supervisor.getByRole("row").filter({ hasText: "Warm air again, two weeks later." });
  await expect(row).toContainText("Weak");
  await row.getByRole("link").first().click();
  await expect(supervisor.getByText("A gauge was past its calibration date")).toHaveCount(0); // that stands on the job
  await supervisor.getByLabel("Cause", { exact: true }).selectOption({ label: "Moisture left in the circuit" });
  await supervisor.getByLabel("Hours of work").fill("3");
  await supervisor.getByRole("button", { name: "Confirm the callback" }).click();
  await expect(supervisor.getByText("Confirmed callback")).toBeVisible();
  await supervisor.context().close();

  const phone = await (await browser.newContext({ viewport: PHONE, hasTouch: true })).newPage();
  await signIn(phone, people.owner);
  await phone.goto(`/${COMPANY}/quality/proof`);
  await expect(phone.getByRole("heading", { name: "What callbacks cost" })).toBeVisible();
  expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  await phone
    .getByRole("link", { name: /Moisture left in the circuit/ })
    .first()
    .click();
  await expect(phone.getByRole("heading", { level: 1 })).toHaveText("Jobs behind a figure");
  expect(new URL(phone.url()).searchParams.get("cause")).toBe("moisture-left");
  const [job] = await ask<{ number: string }>("select number from circuit_job where id = $1", [first.job]);
  await phone.getByRole("link", { name: job!.number, exact: true }).click();
  await phone.waitForURL(new RegExp(first.job));
  await expect(phone.getByText("A gauge was past its calibration date.").first()).toBeVisible();
  await phone.context().close();
});

/** The tablet's entries of a leak repair two weeks ago, its gauge out of date: closed, and weak. */
async function sendWeakJob(tablet: Page, job: string, startedAt: Date): Promise<void> {
  const [known] = await ask<{ company: string; person: string; wire: unknown; received_at: Date }>(
    `select e.tenant_id as company, m.person_id as person, e.wire, e.received_at from entry e
     join member m on m.tenant_id = e.tenant_id and m.email = $2 where e.job_id = $1`,
    [job, people.technician],
  );
  const author = {
    company: CompanyId.parse(known!.company),
    job: JobId.parse(job),
    installation: InstallationId.parse(uuidv7()),
    person: PersonId.parse(known!.person),
  };
  const stamp = { receivedSeq: 1, receivedAt: known!.received_at.toISOString(), roles: ["dispatcher" as const] };
  const log = [stamped(known!.wire as Parameters<typeof stamped>[0], stamp)];
  const contents = fieldWork({ story: "gauge-overdue", kind: "leak_repair", startedAt, technician: author.person });
  for (const [index, content] of contents.entries()) {
    const heads = headsOf(log);
    const closing = { kind: "job-closed" as const, body: { heads, digest: closingDigest(log, heads) } };
    const at = new Date(startedAt.getTime() + index * 20 * 60_000).toISOString();
    const writing = { id: EntryId.parse(uuidv7()), seq: index + 1, heads, deviceAt: at, clockOffsetMs: 0 };
    log.push(stamped(makeEntry(author, writing, content === "close" ? closing : content), stamp));
  }
  const entries = log.slice(1).map(({ stamp: _stamp, ...wire }) => wire);
  const status = await tablet.evaluate(
    async (body) => {
      const options = { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
      return (await fetch("/api/fernhollow/entries", options)).status;
    },
    { entries },
  );
  expect(status).toBe(200);
  const [closed] = await ask<{ state: string; strength: string }>(
    "select state, strength from circuit_job where id = $1",
    [job],
  );
  expect(closed).toEqual({ state: "closed", strength: "weak" });
}
