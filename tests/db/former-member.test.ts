import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { listEntries } from "@/lib/db/entries";
import { listExceptions } from "@/lib/db/exceptions";
import { openSession } from "@/lib/db/gate";
import { withTenant } from "@/lib/db/tenant";
import type { Entry } from "@/lib/hvac/procedure";
import { EntryId, InstallationId } from "@/lib/ids";
import { makeEntry } from "@/lib/sync/protocol";
import { type Serve, serveRoutes, sessionCookie } from "../faults/serve-routes";
import { withConnection } from "./fresh-database";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
let serve: Serve;
let alder: Planted;
let cookie: string;
beforeAll(async () => {
  database = await twoCompanies();
  alder = database.alder;
  serve = await serveRoutes();
  const session = uuidv7();
  await openSession(session, alder.technician.personId, "test", 600);
  cookie = await sessionCookie(session, alder.technician.personId);
});
afterAll(() => database.drop());

const installation = InstallationId.parse(uuidv7());
function note(seq: number): Entry {
  const author = { company: alder.company, job: alder.job, installation, person: alder.technician.personId };
  const writing = {
    id: EntryId.parse(uuidv7()),
    seq,
    heads: [],
    deviceAt: "2026-11-25T08:00:00.000Z",
    clockOffsetMs: 0,
  };
  return makeEntry(author, writing, { kind: "note", body: { text: `note ${seq}`, photos: [] } });
}
const send = (entries: readonly Entry[], slug = "alder") =>
  serve(`/api/${slug}/entries`, { method: "POST", body: JSON.stringify({ entries }) }, cookie);
const setActive = (active: boolean) =>
  withConnection(database.adminUrl, (admin) =>
    admin.query("update member set active = $2 where person_id = $1", [alder.technician.personId, active]),
  );

test("somebody who left hands in what is on their tablet, and a supervisor sees it wait; nothing else opens to them", async () => {
  const before = note(1);
  await send([before]);
  await setActive(false);
  const unsent = note(2);
  const answer = await send([before, unsent]);
  expect(answer.status).toBe(422);
  const { receipts, quarantined } = await answer.json();
  expect(receipts.map(({ id }: { id: string }) => id)).toEqual([before.id]); // was taken while they belonged
  expect(quarantined).toMatchObject([{ index: 1, id: unsent.id, reason: "no-longer-a-member" }]);

  const { log, waiting } = await withTenant(alder.company, async (tx) => ({
    log: await listEntries(tx, alder.job),
    waiting: (await listExceptions(tx, "2026-11-25")).quarantined,
  }));
  expect(log.map(({ id }) => id)).not.toContain(unsent.id);
  expect(waiting).toMatchObject([{ reason: "no-longer-a-member", person: { name: alder.technician.memberName } }]);

  for (const path of [`jobs/${alder.job}/log`, `jobs/${alder.job}/receipts`, "changes"]) {
    expect((await serve(`/api/alder/${path}`, {}, cookie)).status, path).toBe(404);
  }
  expect((await send([note(3)], "birch")).status).toBe(404);

  await setActive(true);
  expect((await send([unsent])).status).toBe(200); // back in the company, it goes into the log
});
