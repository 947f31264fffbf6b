import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { checkTokenHash, judgePaper, newCheckToken, type PaperFacts, writeCertificate } from "@/lib/certificate";
import {
  listCertificateLinks,
  makeCertificateLink,
  recomputeJob,
  revokeCertificateLink,
} from "@/lib/db/certificate-links";
import { readCertificateSource } from "@/lib/db/certificate-source";
import { findCertificateLink } from "@/lib/db/gate";
import { listOfficeEvents } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import type { EntryContent } from "@/lib/hvac/procedure";
import type { JobId } from "@/lib/ids";
import { afterHold, hold, upToEvacuation } from "@/prisma/demo/evidence";
import { writeFieldWork } from "@/prisma/demo/field-work";
import { withConnection } from "./fresh-database";
import { anotherJob, type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
let alder: Planted;
beforeAll(async () => {
  database = await twoCompanies();
  alder = database.alder;
  await admin(
    `update circuit set low_side_design_kpa_gauge = 1724, high_side_design_kpa_gauge = 3275, factory_charge_kg = 3.4
     where id = $1`,
    [alder.circuitId],
  );
});
afterAll(() => database.drop());

const admin = <Row extends object>(sql: string, values: unknown[] = []) =>
  withConnection(database.adminUrl, async (client) => (await client.query<Row>(sql, values)).rows);
const inAlder = <T>(work: Parameters<typeof withTenant<T>>[1]) => withTenant(alder.company, work);
const hashOf = (token: string) => Buffer.from(checkTokenHash(token), "hex");

interface Paper {
  job: JobId;
  paper: PaperFacts;
  token: string;
  id: string;
}

/** A job proven and closed, with a paper and its link. */
async function closedJobWithPaper(): Promise<Paper> {
  const job = await anotherJob(alder);
  const by = alder.technician;
  const startedAt = new Date("2026-10-16T13:00:00Z");
  await inAlder((tx) =>
    writeFieldWork(tx, job, by, startedAt, [
      ...upToEvacuation(startedAt),
      hold(181, 310, 160, 260),
      ...afterHold(by.personId),
    ]),
  );
  const token = newCheckToken((bytes) => crypto.getRandomValues(bytes));
  const id = uuidv7();
  const paper = await inAlder(async (tx) => {
    const source = await readCertificateSource(tx, job, "alder");
    const written = writeCertificate({ ...source!, checkUrl: null });
    if (!written.ok) throw new Error(written.error.code);
    const link = { id, tokenHash: checkTokenHash(token), jobId: job, paper: written.value.paper };
    await makeCertificateLink(tx, link, by.personId);
    return written.value.paper;
  });
  return { job, paper, token, id };
}

const checked = async ({ job, paper }: Paper) => judgePaper(paper, await inAlder((tx) => recomputeJob(tx, job)));
const eventsOf = async (job: JobId) => (await inAlder((tx) => listOfficeEvents(tx, job))).map(({ what }) => what);

let made: Paper;
beforeEach(async () => {
  made = await closedJobWithPaper();
});

describe("a link", () => {
  test("finds its paper by the hash of its token, and the token itself is kept nowhere", async () => {
    expect(await findCertificateLink(hashOf(made.token))).toEqual({
      companyId: alder.company,
      companyName: "alder",
      jobId: made.job,
      paper: made.paper,
      revokedAt: null,
    });
    expect(await findCertificateLink(hashOf(`${made.token.slice(1)}A`))).toBeNull();
    const [row] = await admin<{ all: string }>("select l::text as all from gate.certificate_link l where id = $1", [
      made.id,
    ]);
    expect(row!.all).not.toContain(made.token);
  });

  test("sent again by a tablet makes no second one and no second event", async () => {
    const link = { id: uuidv7(), tokenHash: checkTokenHash(made.token), jobId: made.job, paper: made.paper };
    await inAlder((tx) => makeCertificateLink(tx, link, alder.technician.personId));
    expect((await inAlder((tx) => listCertificateLinks(tx, made.job))).map(({ id }) => id)).toEqual([made.id]);
    expect((await eventsOf(made.job)).filter((what) => what === "certificate-link-made")).toHaveLength(1);
  });

  test("is taken back once, with an event, and stays taken back", async () => {
    const by = alder.supervisor.personId;
    expect(await inAlder((tx) => revokeCertificateLink(tx, made.job, made.id, by))).toBe(true);
    expect(await inAlder((tx) => revokeCertificateLink(tx, made.job, made.id, by))).toBe(false);
    expect((await findCertificateLink(hashOf(made.token)))?.revokedAt).toBeInstanceOf(Date);
    expect((await eventsOf(made.job)).filter((what) => what === "certificate-link-revoked")).toHaveLength(1);
  });

  test("of one company is neither seen, taken back nor made by another", async () => {
    const { birch } = database;
    const by = birch.supervisor.personId;
    await withTenant(birch.company, async (tx) => {
      expect(await listCertificateLinks(tx, made.job)).toEqual([]);
      expect(await revokeCertificateLink(tx, made.job, made.id, by)).toBe(false);
    });
    expect((await findCertificateLink(hashOf(made.token)))?.revokedAt).toBeNull();
    const link = { id: uuidv7(), tokenHash: "0".repeat(64), jobId: made.job, paper: made.paper };
    await expect(withTenant(birch.company, (tx) => makeCertificateLink(tx, link, by))).rejects.toThrow(/foreign key/i);
  });

  test("is out of reach of the application but for its functions", async () => {
    const looking = withConnection(database.databaseUrl, (client) =>
      client.query("select * from gate.certificate_link"),
    );
    await expect(looking).rejects.toThrow(/permission denied/);
  });
});

describe("the stored record", () => {
  test("matches the paper made from it", async () => {
    expect(await checked(made)).toMatchObject({ outcome: "matches", digest: made.paper.digest, strength: "strong" });
  });

  test("with one reading changed in the database does not match, though the closed job's summary still says proven", async () => {
    await admin(
      `update entry set wire = jsonb_set(wire, '{body,evidence,record,readings,40,micron}', '401')
       where job_id = $1 and wire #>> '{body,step}' = 'hold'`,
      [made.job],
    );
    expect(await checked(made)).toMatchObject({ outcome: "altered" });
    const [row] = await admin<{ state: string }>("select state from circuit_job where id = $1", [made.job]);
    expect(row!.state).toBe("closed");
  });

  test("with an entry taken out does not match", async () => {
    await admin("delete from verdict where job_id = $1", [made.job]);
    await admin("delete from entry where job_id = $1 and wire #>> '{body,step}' = 'leak_check'", [made.job]);
    expect(await checked(made)).toMatchObject({ outcome: "altered" });
  });

  test("with an entry more is out of date, its digest still right", async () => {
    const note: EntryContent = { kind: "note", body: { text: "The customer called.", photos: [] } };
    await inAlder((tx) => writeFieldWork(tx, made.job, alder.technician, new Date("2026-10-17T09:00:00Z"), [note]));
    expect(await checked(made)).toMatchObject({ outcome: "entries-came-later", digest: made.paper.digest });
  });
});
