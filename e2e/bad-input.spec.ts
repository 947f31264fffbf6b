import { type APIRequestContext, expect, test } from "@playwright/test";
import { v7 as uuidv7 } from "uuid";
import { ask, idsOf, stateOf } from "./database";
import { pageOf, people, signInRequests } from "./people";

const COMPANY = "fernhollow";
let request: APIRequestContext;
let ids: Record<string, string>;
let company: string;
let person: string;
test.beforeAll(async ({ playwright }) => {
  ids = await idsOf(COMPANY);
  [{ company, person }] = (await ask<{ company: string; person: string }>(
    "select g.id as company, m.person_id as person from gate.company g join member m on m.tenant_id = g.id where g.slug = $1 and m.email = $2",
    [COMPANY, people.technician],
  )) as [{ company: string; person: string }];
  request = await playwright.request.newContext({ baseURL: process.env.E2E_BASE_URL! });
  await signInRequests(request, people.technician);
});
test.afterAll(() => request.dispose());

function entry(content: object, change: object = {}) {
  const writing = { id: uuidv7(), seq: Math.ceil(Math.random() * 1e9), heads: [], clockOffsetMs: 0 };
  const author = { company, job: ids.jobId, installation: uuidv7(), person };
  return { ...writing, ...author, deviceAt: "2026-11-25T08:00:00.000Z", ...content, ...change };
}
const note = { kind: "note", body: { text: "seen", photos: [] } };

/** A hold as the tablet sends it, with these readings. */
function hold(readings: object[], change: object = {}) {
  const gauge = {
    toolId: null,
    label: "G",
    calibrationDueOn: null,
    location: "system",
    resolutionMicron: 1,
    accuracyPercent: 5,
  };
  const evidence = {
    internalVolumeL: 10,
    wallTemperatureC: 20,
    gauge,
    pumpIsolated: true,
    source: "typed",
    record: { kept: "inline", readings },
    deviceVerdict: null,
    photos: [],
    note: null,
    ...change,
  };
  return { kind: "step-recorded", body: { step: "hold", evidence } };
}
const readings = [
  { s: 0, micron: 300 },
  { s: 60, micron: 310 },
];
/** JSON text with a number JSON has no word for. */
const withToken = (token: string) =>
  JSON.stringify({ entries: [entry(hold([{ s: 0, micron: "TOKEN" }]))] }).replace('"TOKEN"', token);

test.describe("entries", () => {
  const send = (body: string | Buffer) =>
    request.post(`/api/${COMPANY}/entries`, {
      data: Buffer.from(body as string),
      headers: { "content-type": "application/json" },
    });

  const rejected: readonly [string, () => string | Buffer, number, RegExp][] = [
    ["no JSON", () => "{", 400, /not JSON/],
    ["NaN", () => withToken("NaN"), 400, /not JSON/],
    ["Infinity", () => withToken("-Infinity"), 400, /not JSON/],
    ["bytes that are no text", () => Buffer.from([0xff, 0xfe, 0x7b]), 400, /not JSON/],
    ["nothing", () => "", 400, /not JSON/],
    ["a list", () => "[]", 400, /1 to 200 entries/],
    ["no entry", () => '{"entries":[]}', 400, /1 to 200 entries/],
    ["201 entries", () => JSON.stringify({ entries: Array(201).fill({}) }), 400, /1 to 200 entries/],
    ["another key", () => JSON.stringify({ entries: [entry(note)], admin: true }), 400, /1 to 200 entries/],
    ["nesting without end", () => `{"entries":[${"[".repeat(100_000)}${"]".repeat(100_000)}]}`, 400, /nested/],
    [
      "2 MB",
      () => JSON.stringify({ entries: [entry({ kind: "note", body: { text: "x".repeat(2e6), photos: [] } })] }),
      413,
      /larger than/,
    ],
    ["50 MB", () => "x".repeat(50_000_000), 413, /larger than/],
  ];
  for (const [what, body, status, words] of rejected) {
    test(`${what}: ${status}, and nothing is written`, async () => {
      const before = await stateOf(COMPANY);
      const answer = await send(body());
      expect(answer.status()).toBe(status);
      expect(await answer.text()).toMatch(words);
      expect(await stateOf(COMPANY)).toEqual(before);
    });
  }

  const quarantined: readonly [string, () => object, string, string][] = [
    [
      "a negative pressure",
      () => entry(hold([readings[0]!, { s: 60, micron: -1 }])),
      "malformed",
      "body.evidence.record.readings.1.micron",
    ],
    [
      "a number too great to be one",
      () => JSON.parse(withToken("1e999")).entries[0],
      "malformed",
      "body.evidence.record.readings.0.micron",
    ],
    [
      "a clock that runs backwards",
      () => entry(hold([...readings].reverse())),
      "malformed",
      "body.evidence.record.readings",
    ],
    [
      "a text for a number",
      () => entry(hold([{ s: 0, micron: "300" }])),
      "malformed",
      "body.evidence.record.readings.0.micron",
    ],
    ["a wrong enum", () => entry(hold(readings, { source: "guessed" })), "malformed", "body.evidence.source"],
    [
      "an unknown step",
      () => entry({ kind: "step-recorded", body: { step: "polish", evidence: {} } }),
      "malformed",
      "body.step",
    ],
    ["a day that is none", () => entry(note, { deviceAt: "2026-02-30T08:00:00.000Z" }), "malformed", "deviceAt"],
    ["a job of nobody", () => entry(note, { job: uuidv7() }), "unknown-job", ""],
    [
      "somebody else's name",
      () => entry(note, { person: ids.personId === person ? uuidv7() : ids.personId }),
      "not-the-author",
      "",
    ],
    ["another company", () => entry(note, { company: uuidv7() }), "not-this-company", ""],
  ];
  for (const [what, made, reason, path] of quarantined) {
    test(`${what} is refused at its place, kept for a supervisor, and the log stays as it was`, async () => {
      const logBefore = await ask("select id from entry");
      const answer = await send(JSON.stringify({ entries: [made()] }));
      expect(answer.status()).toBe(422);
      const { receipts, quarantined: kept } = await answer.json();
      expect(receipts).toEqual([]);
      expect(kept).toMatchObject([{ index: 0, reason, ...(path && { path }) }]);
      expect(kept[0].message.length).toBeGreaterThan(5);
      expect(await ask("select id from entry")).toHaveLength(logBefore.length);
    });
  }
});

test.describe("chunks of readings", () => {
  const put = (data: Buffer, at: { job?: string; index?: string; trace?: string } = {}) =>
    request.put(
      `/api/${COMPANY}/jobs/${at.job ?? ids.jobId}/traces/${at.trace ?? uuidv7()}/chunks/${at.index ?? "0"}`,
      {
        data,
        headers: { "content-type": "application/octet-stream" },
      },
    );

  const cases: readonly [string, () => Parameters<typeof put>, number][] = [
    ["nothing", () => [Buffer.alloc(0)], 400],
    ["noise", () => [Buffer.from("0,300\n1,NaN\n")], 400],
    ["50 MB", () => [Buffer.alloc(50_000_000)], 413],
    ["a job of nobody", () => [Buffer.from([1]), { job: uuidv7() }], 400],
    ["no id", () => [Buffer.from([1]), { job: "1" }], 404],
    ["no trace id", () => [Buffer.from([1]), { trace: "x" }], 404],
    ["chunk -1", () => [Buffer.from([1]), { index: "-1" }], 404],
    ["chunk 1e9", () => [Buffer.from([1]), { index: "1000000000" }], 404],
    ["chunk NaN", () => [Buffer.from([1]), { index: "NaN" }], 404],
  ];
  for (const [what, given, status] of cases) {
    test(`${what}: ${status}, and nothing is written`, async () => {
      const before = await stateOf(COMPANY);
      const answer = await put(...given());
      expect(answer.status()).toBe(status);
      expect((await answer.json()).error.message.length).toBeGreaterThan(5);
      expect(await stateOf(COMPANY)).toEqual(before);
    });
  }
});

test("the visit's state takes only a step that is one", async () => {
  const before = await stateOf(COMPANY);
  const send = (visit: string, data: unknown) => request.post(`/api/${COMPANY}/visits/${visit}/state`, { data });
  for (const data of [
    { to: "flying" },
    { to: "cancelled" },
    {},
    { to: "on-site", version: -1 },
    { to: "on-site", by: "me" },
    "x",
  ]) {
    expect((await send(ids.visitId!, data)).status(), JSON.stringify(data)).toBe(400);
  }
  expect((await send(uuidv7(), { to: "on-site" })).status()).toBe(404);
  expect((await send("1", { to: "on-site" })).status()).toBe(404);
  expect((await send(ids.visitId!, { to: "on-site", version: 999 })).status()).toBe(409);
  expect(await stateOf(COMPANY)).toEqual(before);
});

test("what is asked for wrongly is said to be, never a server error", async () => {
  for (const [path, status] of [
    [`jobs/${ids.jobId}/log?after=NaN`, 400],
    [`jobs/${ids.jobId}/log?after=-1`, 400],
    [`jobs/${ids.jobId}/log?after=1e99`, 400],
    ["jobs/1/log", 404],
    [`jobs/${uuidv7()}/log`, 404],
    ["search?q=a%00b", 400],
    [`search?q=${"x".repeat(201)}`, 400],
    ["search?q=x&kinds=secrets", 400],
    ["search?q=x&limit=NaN", 400],
  ] as const) {
    expect((await request.get(`/api/${COMPANY}/${path}`)).status(), path).toBe(status);
  }
});

test("addresses that are none are nothing here", async ({ browser }) => {
  const page = await pageOf(browser, people.dispatcher);
  for (const path of [
    "calls/1",
    "work-orders/x",
    "jobs/%00",
    `jobs/${uuidv7().toUpperCase()}`,
    "day?day=2026-02-30",
    "day?day=x&day=y",
  ]) {
    const answer = await page.goto(`/${COMPANY}/${path}`);
    expect(answer!.status(), path).toBeLessThan(500);
  }
  await page.context().close();
});

test.describe("a file for the register", () => {
  const cases: readonly [string, string, RegExp][] = [
    [
      "a quotation mark that never closes",
      'Customer,Site\nOak,"Shop\nElm,Yard\n',
      /Line 2: a quotation mark opens and never closes/,
    ],
    ["more cells than headings", "Customer,Site\nOak,Shop\nElm,Yard,what\n", /Line 3 has 3 cells/],
    ["nothing under its headings", "Customer,Site\n", /no line under the headings/],
    ["bytes that are no text", "Customer\u0000,Site\nOak,Shop\n", /not a text file/],
  ];
  for (const [what, text, words] of cases) {
    test(`with ${what} is refused by line, and nothing of it is in`, async ({ browser }) => {
      const page = await pageOf(browser, people.owner);
      const before = await stateOf(COMPANY);
      await page.goto(`/${COMPANY}/import`);
      await page
        .getByLabel("A file")
        .setInputFiles({ name: "list.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
      await expect(page.getByText(words)).toBeVisible();
      await expect(page.getByText("Nothing was imported.")).toBeVisible();
      expect(await stateOf(COMPANY)).toEqual(before);
      await page.context().close();
    });
  }

  test("with one bad cell among good lines names line and column, and takes none of it", async ({ browser }) => {
    const page = await pageOf(browser, people.owner);
    const before = await stateOf(COMPANY);
    await page.goto(`/${COMPANY}/import`);
    const text =
      "Customer,Site,Unit,Refrigerant,Charge lb\nOak,Shop,Cooler,R-410A,7\nElm,Yard,Freezer,R-410A,NaN\nAsh,Mill,Rack,R-410A,-3\n";
    await page.getByLabel("or its lines, pasted").fill(text);
    await page.getByRole("button", { name: "See what it would do" }).click();
    const faults = page.getByRole("table", { name: "The faults" });
    await expect(faults.getByRole("row", { name: "3 Charge lb Not a number." })).toBeVisible();
    await expect(faults.getByRole("row", { name: "4 Charge lb Must be at least 0." })).toBeVisible();
    expect(await stateOf(COMPANY)).toEqual(before);
    await page.context().close();
  });

  test("of 50 MB is refused before it is sent", async ({ browser }) => {
    const page = await pageOf(browser, people.owner);
    await page.goto(`/${COMPANY}/import`);
    await page
      .getByLabel("A file")
      .setInputFiles({ name: "big.csv", mimeType: "text/csv", buffer: Buffer.alloc(50_000_000, "a,b\n") });
    await expect(page.getByText(/up to 5 MB can be taken at once/)).toBeVisible();
    await page.context().close();
  });
});

test("numbers that are none are said to be at their field of the register", async ({ browser }) => {
  const page = await pageOf(browser, people.owner);
  const before = await stateOf(COMPANY);
  await page.goto(`/${COMPANY}/customers/${ids.customerId}/sites/new`);
  await page.getByLabel("Name of the site").fill("Depot");
  await page.getByLabel("Time zone").fill("Mars/Olympus");
  await page.getByLabel("Latitude").fill("NaN");
  await page.getByLabel("Longitude").fill("-500");
  await page
    .getByRole("button", { name: /save|add/i })
    .first()
    .click();
  await expect(page.getByText("Not a known time zone")).toBeVisible();
  await expect(page.getByText("Not a number.")).toBeVisible();
  await expect(page.getByText("Must be at least -180.")).toBeVisible();
  expect(await stateOf(COMPANY)).toEqual(before);
  await page.context().close();
});
