import { readFileSync } from "node:fs";
import { type APIRequestContext, type APIResponse, expect, type Page, test } from "@playwright/test";
import { v7 as uuidv7 } from "uuid";
import { addresses, fill, idsByName } from "./addresses";
import { idsOf, stateOf } from "./database";
import { pageOf, people, signInRequests } from "./people";

/*
 * For a member of company B, whatever company A has is exactly what was never there: the same status and the same body,
 * but for the address asked for. Pages, route handlers and actions are taken from the source and the build, not from a list
 * kept here, so that a new one is asked for too.
 */

const OURS = "fernhollow";
const THEIRS = "saltmarsh";
const NOBODY = "hollowfern"; // as long as ours: the length decides which parts of an answer stand apart

let ids: Record<string, string>;
let request: APIRequestContext;
test.beforeAll(async ({ playwright }) => {
  ids = await idsOf(OURS);
  request = await playwright.request.newContext({ baseURL: process.env.E2E_BASE_URL! });
  await signInRequests(request, people.otherOwner);
});
test.afterAll(() => request.dispose());

const ourId = (name: string) => idsByName({ index: "0", traceId: uuidv7(), pictureId: uuidv7(), ...ids })(name);
const randomId = (name: string) => (name === "index" ? "0" : uuidv7());

/** What an answer says, without the address asked for, ids, nonces, keys made for one answer and the order in which parts were streamed. */
function said(body: string): string {
  const plain = body
    .replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g, "ID")
    .replaceAll(new RegExp(`${OURS}|${THEIRS}|${NOBODY}`, "g"), "COMPANY")
    .replaceAll(/[\w-]{21}(?=[vm]\\?")/g, "KEY")
    .replaceAll(/nonce(\\?"?[=:]\\?")[^"\\]+/g, "nonce$1N");
  return plain
    .split(/(?=<script)|\n/)
    .sort()
    .join("\n");
}

async function same(a: APIResponse, b: APIResponse, what: string): Promise<string> {
  expect(a.status(), what).toBe(b.status());
  const [ours, theirs] = [await a.text(), await b.text()];
  expect(said(ours), what).toBe(said(theirs));
  return ours;
}

const SECRETS = /Willowbend|Larkspur|Quarry Road|Bellweather|Harrow|Tomas|Marek|Orchard Row/;

test("another company's pages are no pages", async () => {
  test.setTimeout(240_000);
  const pages = addresses("page.tsx");
  expect(pages.length).toBeGreaterThan(30);
  for (const path of pages) {
    const [asked, missing] = [fill(path, OURS, ourId), fill(path, NOBODY, randomId)];
    const body = await same(await request.get(asked), await request.get(missing), asked);
    expect(body, asked).toMatch(/Nothing here|There is no such page|HTTP_ERROR_FALLBACK;404/);
    expect(body).not.toMatch(SECRETS);
  }
});

test("another company's things under one's own address are missing things", async () => {
  test.setTimeout(240_000);
  const withIds = addresses("page.tsx").filter((path) => path.replace("[company]", "").includes("["));
  expect(withIds.length).toBeGreaterThan(12);
  for (const path of withIds) {
    const [asked, missing] = [fill(path, THEIRS, ourId), fill(path, THEIRS, randomId)];
    const body = await same(await request.get(asked), await request.get(missing), asked);
    expect(body, asked).toContain("Nothing here");
    expect(body, asked).not.toMatch(SECRETS);
  }
});

test("the intake form does not open for another company's customer, site or unit", async () => {
  const query = (of: (name: string) => string) =>
    new URLSearchParams({ customer: of("customerId"), site: of("siteId"), unit: of("equipmentId") });
  for (const path of [`/${THEIRS}/calls/new`, `/${THEIRS}/equipment/new`]) {
    const [asked, missing] = [`${path}?${query(ourId)}`, `${path}?${query(randomId)}`];
    const body = await same(await request.get(asked), await request.get(missing), asked);
    expect(body).not.toMatch(SECRETS);
  }
});

test("another company's route handlers answer as if there were none", async () => {
  const before = await stateOf(OURS);
  const handlers = addresses("route.ts");
  expect(handlers.length).toBeGreaterThanOrEqual(7);
  for (const path of handlers) {
    for (const method of ["get", "post", "put", "delete"] as const) {
      for (const [company, missingCompany] of [
        [OURS, NOBODY],
        [THEIRS, THEIRS],
      ] as const) {
        if (company === THEIRS && !path.replace("[company]", "").includes("[")) continue;
        const send = (address: string) =>
          request[method](address, method === "get" ? {} : { data: { entries: [{ id: "x" }], to: "on-site" } });
        const asked = fill(path, company, ourId);
        const [answer, missing] = [await send(asked), await send(fill(path, missingCompany, randomId))];
        const body = await same(answer, missing, `${method} ${asked}`);
        expect([400, 403, 404, 405], `${method} ${asked}`).toContain(answer.status());
        expect(body).not.toMatch(SECRETS);
      }
    }
  }
  expect(await stateOf(OURS)).toEqual(before);
});

interface Sent {
  action: string;
  url: string;
  type: string;
  body: string;
}

/** Opens a page and waits until its forms answer to React: before that a press would load the page anew. */
async function openForms(page: Page, address: string): Promise<void> {
  await expect(async () => {
    await page.goto(address);
    await page.waitForFunction(() =>
      [...document.forms].every((form) => Object.keys(form).some((key) => key.startsWith("__reactProps"))),
    );
  }).toPass(); // what a form asked for just before may still break in
}

interface Press {
  readonly form: number;
  readonly button: number;
  readonly signature: string;
}

/** Every button of every form that an action answers, and what the form asks for: two alike send the same. */
const pressesOf = (page: Page): Promise<Press[]> =>
  page.evaluate(() =>
    [...document.forms].flatMap((form, at) => {
      const isSearch = form.method === "get" && form.getAttribute("action")?.startsWith("javascript:") === false;
      const names = [...form.elements].map((each) => `${each.getAttribute("name")} ${each.getAttribute("type")}`);
      const buttons = [...form.querySelectorAll<HTMLElement>("[type=submit]")];
      return isSearch
        ? []
        : buttons.map(({ textContent }, button) => ({ form: at, button, signature: `${names} ${textContent}` }));
    }),
  );

/** Presses each button not seen before on a page and keeps what it would have sent; nothing reaches the server. */
async function captureForms(page: Page, address: string, seen: Set<string>): Promise<Sent[]> {
  await openForms(page, address);
  const unseen = (await pressesOf(page)).filter(({ signature }) => !seen.has(signature));
  const sent: Sent[] = [];
  await page.route("**/*", async (route) => {
    const asked = route.request();
    const headers = await asked.allHeaders();
    if (!headers["next-action"]) return route.fallback();
    const body = asked.postDataBuffer()?.toString("latin1") ?? "";
    sent.push({ action: headers["next-action"], url: asked.url(), type: headers["content-type"] ?? "", body });
    return route.abort();
  });
  for (const [at, { form, button, signature }] of unseen.entries()) {
    if (seen.has(signature)) continue;
    if (at > 0) await openForms(page, address); // what was pressed before may have changed the page
    seen.add(signature);
    await page.evaluate(
      ([n, m]) => {
        const pressed = document.forms[n!];
        if (!pressed) return;
        pressed.noValidate = true;
        pressed.requestSubmit(pressed.querySelectorAll<HTMLButtonElement>("[type=submit]")[m!]);
      },
      [form, button] as const,
    );
    await page.waitForTimeout(100);
  }
  await page.unrouteAll({ behavior: "wait" }); // one may still be on its way
  return sent;
}

/** Every action the build knows, by its id. */
function builtActions(): Map<string, string> {
  const manifest = JSON.parse(readFileSync(".next/server/server-reference-manifest.json", "utf8"));
  const entries = Object.entries<{ exportedName?: string; filename?: string }>(manifest.node);
  return new Map(entries.map(([id, { filename, exportedName }]) => [id, `${filename} ${exportedName}`]));
}

/** Actions no form sends: how each is called. */
const CALLED: Readonly<Record<string, (company: string, of: (name: string) => string) => unknown[]>> = {
  commandPlan: (company, of) => [company, { do: "take-off", id: of("visitId"), version: 1 }],
  proposePlan: (company, of) => [company, { want: "place", day: "2026-11-25", kind: "visit", id: of("visitId") }],
  offerCall: (company, of) => [
    company,
    { siteId: of("siteId"), circuitId: of("circuitId"), minutes: 60, urgency: "today" },
  ],
  changesOf: (company, of) => [company, of("visitId")],
  searchCustomers: (company) => [company, "bakery"],
  preview: (company) => [{ company, text: "Customer,Site\nBakery,Shop\n", mapping: null }],
  carryOut: (company) => [{ company, text: "Customer\n\n", mapping: null }],
};
/** Actions that stand under no company: they ask only who is signed in. */
const OWN_ACCOUNT = /app\/\(account\)/;

test("another company's actions do nothing, and say what they say of nothing", async ({ browser }) => {
  test.setTimeout(600_000);
  const actions = builtActions();
  expect(actions.size).toBeGreaterThan(10);
  const sent: Sent[] = [];
  const seen = new Set<string>();
  const forms = addresses("page.tsx").filter((path) => !path.startsWith("/t/"));
  for (const email of [people.owner, people.supervisor]) {
    const page = await pageOf(browser, email);
    for (const path of forms) {
      if (email === people.supervisor && !/jobs|exceptions/.test(path)) continue;
      sent.push(...(await captureForms(page, fill(path, OURS, ourId), seen)));
    }
    const query = new URLSearchParams({ customer: ids.customerId!, site: ids.siteId!, unit: ids.equipmentId! });
    const behindQueries = ["promise", "book", "give"].map((act) => `refrigerant/cylinders?do=${act}`);
    for (const path of [`calls/new?${query}`, ...behindQueries])
      sent.push(...(await captureForms(page, `/${OURS}/${path}`, seen)));
    await page.context().close();
  }
  const before = await stateOf(OURS);
  const names = new Map([...actions].map(([id, name]) => [id, name.split(" ").at(-1)!]));
  const tried = new Set<string>();
  for (const one of sent) {
    const send = (url: string, body: string) =>
      request.post(url, {
        headers: { "next-action": one.action, "content-type": one.type, accept: "text/x-component" },
        data: Buffer.from(body, "latin1"),
        maxRedirects: 0,
      });
    const home = `/${THEIRS}/customers`;
    const own = one.body.replaceAll(OURS, THEIRS);
    const randomised = own.replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}/g, () => uuidv7());
    const what = names.get(one.action) ?? one.action;
    await same(await send(home, one.body), await send(home, one.body.replaceAll(OURS, NOBODY)), `${what} in ${OURS}`);
    await same(await send(home, own), await send(home, randomised), `${what} with foreign ids`);
    tried.add(one.action);
  }
  for (const [id, name] of names) {
    const call = CALLED[name];
    if (!call) continue;
    const send = (company: string, of: (name: string) => string) =>
      request.post(`/${THEIRS}/customers`, {
        headers: { "next-action": id, "content-type": "text/plain;charset=UTF-8", accept: "text/x-component" },
        data: JSON.stringify(call(company, of)),
      });
    await same(await send(OURS, ourId), await send(NOBODY, randomId), `${name} in ${OURS}`);
    tried.add(id);
  }
  expect(await stateOf(OURS)).toEqual(before);
  const untried = [...actions]
    .filter(([id, name]) => !tried.has(id) && !OWN_ACCOUNT.test(name))
    .map(([, name]) => name);
  // Forms that the demo shows to nobody just now cannot be captured; their queries are held by tests/db.
  console.info(`${sent.length} form posts of ${tried.size} actions replayed; not captured: ${untried.join(", ")}`);
  expect(tried.size).toBeGreaterThan(8);
});

test("nobody signed in is sent to the sign-in page, or told so", async ({ playwright }) => {
  const stranger = await playwright.request.newContext({ baseURL: process.env.E2E_BASE_URL! });
  for (const path of addresses("page.tsx")) {
    const asked = fill(path, OURS, ourId);
    const answer = await stranger.get(asked, { maxRedirects: 0 });
    const body = await answer.text();
    expect(answer.headers().location ?? body, asked).toContain("/sign-in"); // streamed pages are sent on by their body
    expect(body).not.toMatch(SECRETS);
  }
  for (const path of addresses("route.ts")) {
    const answer = await stranger.get(fill(path, OURS, ourId), { maxRedirects: 0 });
    expect([401, 405], path).toContain(answer.status());
  }
  await stranger.dispose();
});

test("a role that does not include a page is told so", async ({ playwright }) => {
  const technician = await playwright.request.newContext({ baseURL: process.env.E2E_BASE_URL! });
  await signInRequests(technician, people.technician);
  const office = ["day", "calls", "calls/new", "work-orders", "jobs", "people", "settings", "import", "exceptions"];
  for (const place of [...office, `work-orders/${ids.orderId}`, `calls/${ids.callId}`]) {
    const body = await (await technician.get(`/${OURS}/${place}`)).text();
    expect(body, place).toContain("Not open to you");
    expect(body, place).not.toMatch(/Larkspur|Quarry Road/);
  }
  await technician.dispose();
});
