import { spawnSync } from "node:child_process";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { endAllSessions, openSession } from "@/lib/db/gate";
import type { Entry, Stamp } from "@/lib/hvac/procedure";
import { EntryId, InstallationId } from "@/lib/ids";
import { makeEntry } from "@/lib/sync/protocol";
import type { Signed } from "@/lib/sync/receipt";
import { keyIdOf, verifyReceipt } from "@/lib/sync/verify-receipt";
import { type Serve, serveRoutes, sessionCookie } from "../faults/serve-routes";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

interface ReceiptFile {
  publicKey: string;
  receipts: { entry: Entry; stamp: Stamp; signed: Signed }[];
}

let database: TwoCompanies;
let serve: Serve;
let alder: Planted;
beforeAll(async () => {
  database = await twoCompanies();
  alder = database.alder;
  serve = await serveRoutes();
});
afterAll(() => database.drop());

async function as(who: "technician" | "dispatcher" | "supervisor", at = alder) {
  const session = uuidv7();
  await openSession(session, at[who].personId, "test", 600);
  return sessionCookie(session, at[who].personId);
}

function note(text: string, seq: number): Entry {
  const author = { company: alder.company, job: alder.job, installation, person: alder.technician.personId };
  const writing = {
    id: EntryId.parse(uuidv7()),
    seq,
    heads: [],
    deviceAt: "2026-11-25T08:00:00.000Z",
    clockOffsetMs: 0,
  };
  return makeEntry(author, writing, { kind: "note", body: { text, photos: [] } });
}
const installation = InstallationId.parse(uuidv7());

async function send(entries: readonly Entry[]) {
  const answer = await serve(
    "/api/alder/entries",
    { method: "POST", body: JSON.stringify({ entries }) },
    await as("technician"),
  );
  return (await answer.json()) as { receipts: { id: string; stamp: Stamp; signed: Signed }[] };
}
async function file(): Promise<ReceiptFile> {
  const answer = await serve(`/api/alder/jobs/${alder.job}/receipts`, {}, await as("supervisor"));
  expect(answer.status).toBe(200);
  return answer.json() as Promise<ReceiptFile>;
}

test("what is received is signed for, and the receipt holds without the server", async () => {
  const entry = note("seen", 1);
  const { receipts } = await send([entry]);
  const { publicKey } = await file();
  const { stamp, signed } = receipts[0]!;
  expect(signed.key).toBe(keyIdOf(publicKey));
  expect(await verifyReceipt(publicKey, { entry, stamp, signed })).toEqual({ ok: true, value: null });
});

test("sent again, the same receipt comes back", async () => {
  const entry = note("twice", 2);
  const first = await send([entry]);
  expect((await send([entry])).receipts).toEqual(first.receipts);
});

test("a word, a time, a place or a role changed later no longer fits", async () => {
  const entry = note("as it was", 3);
  const { stamp, signed } = (await send([entry])).receipts[0]!;
  const { publicKey } = await file();
  const changed: { entry: Entry; stamp: Stamp }[] = [
    { entry: { ...entry, body: { text: "as it was not", photos: [] } } as Entry, stamp },
    { entry, stamp: { ...stamp, receivedAt: new Date(Date.parse(stamp.receivedAt) - 86_400_000).toISOString() } },
    { entry, stamp: { ...stamp, receivedSeq: stamp.receivedSeq + 1 } },
    { entry, stamp: { ...stamp, roles: ["supervisor"] } },
  ];
  for (const each of changed) {
    expect(await verifyReceipt(publicKey, { ...each, signed })).toEqual({
      ok: false,
      error: { code: "not-what-was-signed" },
    });
  }
  expect(await verifyReceipt("00".repeat(32), { entry, stamp, signed })).toEqual({
    ok: false,
    error: { code: "another-key" },
  });
});

test("the file holds every entry of the job, the office's too", async () => {
  const { publicKey, receipts } = await file();
  expect(receipts[0]!.entry.kind).toBe("job-opened");
  for (const receipt of receipts) expect((await verifyReceipt(publicKey, receipt)).ok).toBe(true);
});

test("the file is the office's, and another company's job looks like none", async () => {
  const ask = async (cookie: string, slug = "alder") =>
    (await serve(`/api/${slug}/jobs/${alder.job}/receipts`, {}, cookie)).status;
  expect(await ask(await as("technician"))).toBe(403);
  expect(await ask(await as("supervisor", database.birch))).toBe(404);
  expect(await ask(await as("supervisor", database.birch), "birch")).toBe(404);
  const cookie = await as("dispatcher");
  await endAllSessions(alder.dispatcher.personId);
  expect(await ask(cookie)).toBe(401);
});

test("the command checks the file, names what was changed, and knows a key that was noted", async () => {
  const whole = await file();
  const run = (given: unknown, ...args: string[]) => {
    const { status, stdout } = spawnSync("node", ["scripts/bundled.mjs", "scripts/receipts.ts", ...args], {
      input: typeof given === "string" ? given : JSON.stringify(given),
      encoding: "utf8",
    });
    return { status, stdout };
  };
  const key = keyIdOf(whole.publicKey);
  const many = whole.receipts.length;
  expect(run(whole, key)).toEqual({ status: 0, stdout: `${many} of ${many} receipts hold, under the key ${key}\n` });
  expect(run(whole, "0".repeat(32)).status).toBe(1);
  whole.receipts[0]!.stamp.receivedAt = "2020-01-01T00:00:00.000Z";
  const changed = run(whole);
  expect(changed.status).toBe(1);
  expect(changed.stdout).toContain(`${whole.receipts[0]!.entry.id}  job-opened  is not what was signed`);
  expect(run("not JSON").status).toBe(2);
});
