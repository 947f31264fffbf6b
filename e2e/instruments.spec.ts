import { expect, type Page, test } from "@playwright/test";
import { unpackChunk } from "../lib/sync/trace-chunk";
import { ask } from "./database";
import { pageOf, people } from "./people";
import { simulateGauge } from "./simulated-gauge";
import * as tablet from "./tablet-steps";

/*
 * Readings that an instrument took: a file in mbar and Celsius, and a gauge by Bluetooth whose link is lost on the way. The gauge stands
 * at the boundary of the browser: what the page does with its bytes is the product's.
 */

const BEFORE = /It has been done already|Record it again|Do the step again/;

async function openHold(page: Page): Promise<string> {
  const [row] = await ask<{ id: string }>(
    `select j.id from circuit_job j join visit v on v.tenant_id = j.tenant_id and v.work_order_id = j.work_order_id
     join visit_person p on p.tenant_id = v.tenant_id and p.visit_id = v.id
     join gate.person g on g.id = p.person_id where g.email = $1 and j.state <> 'closed' order by j.number limit 1`,
    [people.technician],
  );
  await page.goto(`/t/fernhollow/jobs/${row!.id}?step=hold`);
  await page.getByRole("button", { name: BEFORE }).click();
  return row!.id;
}

async function fillHold(page: Page): Promise<void> {
  await tablet.answer(page, "The valve to the pump is closed", "Yes");
  await tablet.choose(page, "The gauge sits", /On the system/);
  await tablet.enter(page, /Coldest wall of the circuit/, 21, "°C");
  await tablet.chooseTool(page, "Vacuum gauge");
  await tablet.enterIfEmpty(page, /Internal volume/, 6);
  await tablet.enterIfEmpty(page, /Smallest step of the gauge/, 1, "micron");
  await tablet.enterIfEmpty(page, /Accuracy of the gauge/, 5);
}

const holdsOf = (job: string) =>
  ask<{ evidence: Evidence }>(
    "select wire #> '{body,evidence}' as evidence from entry where job_id = $1 and wire #>> '{body,step}' = 'hold' order by received_seq",
    [job],
  );
interface Evidence {
  readonly source: string;
  readonly gauge: { readonly radioName?: string };
  readonly deviceVerdict: { readonly verdict: string } | null;
  readonly record:
    | { readonly kept: "inline"; readonly readings: readonly { s: number; micron: number; temperatureC?: number }[] }
    | { readonly kept: "trace"; readonly trace: { readonly traceId: string; readonly sampleCount: number } };
}

test("a hold from a file in mbar and Celsius, and one from a gauge by Bluetooth whose link was lost, with no network", async ({
  browser,
}) => {
  test.setTimeout(150_000);
  const page = await pageOf(browser, people.technician);
  page.setDefaultTimeout(20_000);
  await simulateGauge(page);
  const job = await openHold(page);

  await page.getByRole("button", { name: "From a file or a paste" }).click();
  const dialog = page.getByRole("dialog");
  const rows = Array.from({ length: 120 }, (_, at) => `${at * 5};${(0.4 + at / 2000).toFixed(4)};21.5`);
  await dialog.locator('input[type="file"]').setInputFiles({
    name: "hold.csv",
    mimeType: "text/csv",
    buffer: Buffer.from(["seconds;vac;temp", ...rows].join("\n")),
  });
  await dialog.getByLabel("Vacuum is in").selectOption("mbar");
  await dialog.getByLabel("Temperature is in").selectOption("C");
  await expect(dialog.getByText(/120 readings over 9:55, from 0.4 to 0.4595 mbar/)).toBeVisible();
  await dialog.getByRole("button", { name: "Take these readings" }).click();
  await fillHold(page);
  await tablet.press(page, "Record the hold");
  await expect.poll(async () => (await holdsOf(job)).length, { timeout: 30_000 }).toBe(1);
  const [fromFile] = await holdsOf(job);
  expect(fromFile!.evidence.source).toBe("file");
  const kept = fromFile!.evidence.record;
  if (kept.kept !== "inline") throw new Error("a short record is kept in its entry");
  expect(kept.readings[0]!.micron).toBeCloseTo(300.03, 1); // 40 Pa
  expect(kept.readings[119]).toMatchObject({ s: 595, temperatureC: 21.5 });

  await page.getByRole("button", { name: /Record it again|Do the step again/ }).click();
  await tablet.press(page, "Link a gauge by Bluetooth");
  await expect(page.getByText("Bench gauge 7 linked")).toBeVisible();
  await expect(page.getByText("Battery 82 %")).toBeVisible();
  await page.context().setOffline(true);
  await page.evaluate(() => window.simulatedGauge.speak(642));
  await tablet.press(page, "Valve closed: start the hold");
  await expect(page.getByText("The gauge writes by itself")).toBeVisible();
  await page.waitForTimeout(4_000);
  await page.evaluate(() => window.simulatedGauge.lose());
  await expect(page.getByRole("status").filter({ hasText: /Link to Bench gauge 7 lost/ })).toBeAttached(); // told, not only shown
  await expect(page.getByText(/Link to Bench gauge 7 lost .* ago/)).toBeVisible();
  await page.waitForTimeout(4_000);
  await page.evaluate(() => window.simulatedGauge.comeBack());
  await expect(page.getByText("Bench gauge 7 linked")).toBeVisible({ timeout: 15_000 });
  await page.waitForTimeout(3_000);
  await fillHold(page);
  await tablet.press(page, "Record the hold");
  await expect(page.getByText(/Saved here, \d+ to send/)).toBeVisible();
  expect(await holdsOf(job)).toHaveLength(1); // nothing has left the tablet
  await page.context().setOffline(false);
  await expect.poll(async () => (await holdsOf(job)).length, { timeout: 30_000 }).toBe(2);

  const { evidence } = (await holdsOf(job))[1]!;
  expect(evidence).toMatchObject({ source: "bluetooth", gauge: { radioName: "Bench gauge 7" } });
  expect(evidence.deviceVerdict?.verdict).toBe("unproven"); // seconds of a hold prove nothing
  if (evidence.record.kept !== "trace") throw new Error("a written record is a trace");
  const { traceId, sampleCount } = evidence.record.trace;
  const chunks = await ask<{ packed: Buffer }>(
    "select packed from trace_chunk where trace_id = $1 order by chunk_index",
    [traceId],
  );
  const samples = chunks.flatMap(({ packed }) => {
    const chunk = unpackChunk(new Uint8Array(packed));
    return chunk.ok ? chunk.value.samples : [];
  });
  expect(samples).toHaveLength(sampleCount);
  expect(new Set(samples.map(({ value }) => value))).toEqual(new Set([64.2])); // Pa as received, nothing reworked
  const steps = samples.slice(1).map(({ atMs }, index) => atMs - samples[index]!.atMs);
  expect(Math.max(...steps)).toBeGreaterThan(3_500); // the gap stays open
  expect(steps.filter((step) => step > 3_500)).toHaveLength(1);
  await page.context().close();
});

test("a gauge sends its readings by a secret of its own, and the tablet takes them into a hold", async ({
  browser,
  playwright,
}) => {
  const office = await pageOf(browser, people.dispatcher);
  const [gauge] = await ask<{ id: string }>(
    "select t.id from tool t join gate.company g on g.id = t.tenant_id where g.slug = 'fernhollow' and t.kind = 'vacuum-gauge' order by t.name limit 1",
  );
  await office.goto(`/fernhollow/tools/${gauge!.id}`);
  await office.getByRole("button", { name: "Make a secret" }).click();
  const secret = await office.getByText(/^[A-Za-z0-9_-]{43}$/).textContent();

  const instrument = await playwright.request.newContext({ baseURL: process.env.E2E_BASE_URL! });
  const endMs = Date.now() - 5_000;
  const readings = Array.from({ length: 600 }, (_, at) => ({
    at: new Date(endMs - (599 - at) * 1000).toISOString(),
    value: Math.round((40 + 3 * (1 - Math.exp(-at / 120))) * 100) / 100,
    temperatureC: 21,
  }));
  const send = (key: string, data: object, token = secret) =>
    instrument.post("/api/readings", {
      data,
      headers: { authorization: `Bearer ${token}`, "idempotency-key": key },
    });
  const halves = [readings.slice(0, 300), readings.slice(300)];
  for (const [index, half] of halves.entries()) {
    for (const _again of [1, 2]) {
      const answer = await send(`hold-${index}`, { unit: "Pa", readings: half });
      expect([answer.status(), await answer.json()]).toEqual([200, { kept: 300 }]);
    }
  }
  expect((await send("hold-0", { unit: "Pa", readings: halves[1]! })).status()).toBe(409);
  const faulty = await send("faulty", { unit: "Pa", readings: [{ at: "yesterday", value: 1 }] });
  expect([faulty.status(), (await faulty.json()).error.faults[0].path]).toEqual([400, "readings.0.at"]);
  expect((await send("stranger", { unit: "Pa", readings: halves[0]! }, "x".repeat(43))).status()).toBe(401);

  const page = await pageOf(browser, people.technician);
  page.setDefaultTimeout(20_000);
  const job = await openHold(page);
  const before = (await holdsOf(job)).length;
  await page.getByRole("button", { name: "From a file or a paste" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Gauge", { exact: true }).selectOption(gauge!.id);
  await dialog.getByRole("button", { name: "Fetch them" }).click();
  await expect(dialog.getByText(/600 readings over 9:59, from 40 to 42.98 Pa/)).toBeVisible();
  await dialog.getByRole("button", { name: "Take these readings" }).click();
  await fillHold(page);
  await tablet.press(page, "Record the hold");
  await expect.poll(async () => (await holdsOf(job)).length, { timeout: 30_000 }).toBe(before + 1);
  expect((await holdsOf(job)).at(-1)!.evidence).toMatchObject({
    source: "http",
    record: { kept: "trace", trace: { sampleCount: 600 } },
  });

  await office.reload();
  await office.getByRole("button", { name: "Take back" }).click();
  await expect(office.getByText("Taken back")).toBeVisible();
  expect((await send("late", { unit: "Pa", readings: halves[0]! })).status()).toBe(401);
  for (const each of [office, page]) await each.context().close();
  await instrument.dispose();
});
