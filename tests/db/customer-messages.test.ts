import { createServer } from "node:net";
import { text } from "node:stream/consumers";
import { SMTPServer } from "smtp-server";
import { afterAll, beforeAll, beforeEach, expect, test } from "vitest";
import { linkAddress, linkTokenHash } from "@/lib/auth/link-token";
import { listMessages } from "@/lib/db/customer-messages";
import { findStatusLink } from "@/lib/db/gate";
import { ensureStatusLink, revokeStatusLink } from "@/lib/db/status-links";
import { withTenant } from "@/lib/db/tenant";
import { moveVisit, planVisit, replanVisit } from "@/lib/db/visits";
import { runOneJob } from "@/lib/jobs/run-jobs";
import { type Mail, type MailOutcome, mailBySmtp, type SendMail } from "@/lib/messages/mail";
import { sendMessage } from "@/lib/messages/send-message";
import { withConnection } from "./fresh-database";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  process.env.NEXTAUTH_SECRET = "x".repeat(32);
  process.env.NEXTAUTH_URL = "https://dryhold.example";
  database = await twoCompanies();
});
afterAll(() => database.drop());
beforeEach(async () => {
  await sql("truncate customer_message, gate.job");
  await consent(true);
});

const sql = <Row extends object>(words: string) =>
  withConnection(database.adminUrl, async (client) => (await client.query<Row>(words)).rows);
const consent = (mayWrite: boolean) =>
  withTenant(database.alder.company, (tx) =>
    tx.customer.updateMany({ data: { email: "ovens@alder.example", mayWrite } }),
  );

const HOUR = 3_600_000;
const tomorrow = Math.ceil(Date.now() / HOUR) * HOUR + 24 * HOUR;
const windowOf = (fromMs: number) => ({ from: new Date(fromMs), to: new Date(fromMs + 2 * HOUR) });
const plan = (fromMs: number | null, startMs = fromMs) => ({
  window: fromMs === null ? null : windowOf(fromMs),
  plannedStart: startMs === null ? null : new Date(startMs),
  plannedMinutes: 60,
  people: [database.alder.technician.personId],
});
const planned = async (fromMs: number | null, startMs = fromMs) => {
  const visit = await withTenant(database.alder.company, (tx) =>
    planVisit(tx, database.alder.workOrderId, plan(fromMs, startMs)),
  );
  if (!visit.ok) throw new Error(visit.error.code);
  return visit.value;
};
const replan = (id: string, version: number, fromMs: number, startMs = fromMs) =>
  withTenant(database.alder.company, (tx) => replanVisit(tx, id, version, plan(fromMs, startMs)));
const outbox = () => withTenant(database.alder.company, (tx) => listMessages(tx, database.alder.workOrderId));

/** Lets two minutes pass and does what is due; the mails that were handed over. */
async function pass(outcome: MailOutcome | SendMail = { became: "sent" }): Promise<Mail[]> {
  const mails: Mail[] = [];
  await sql("update gate.job set due_at = due_at - interval '1 day'");
  const send: SendMail = async (mail) => {
    mails.push(mail);
    return typeof outcome === "function" ? outcome(mail) : outcome;
  };
  const works = { once: { "send-message": sendMessage(() => send) }, daily: {} };
  while (await runOneJob(works));
  return mails;
}

test("a promise is told once, with the window and who comes by first name; a start moved inside it says nothing", async () => {
  const id = await planned(tomorrow);
  const [mail, ...more] = await pass();
  expect(more).toEqual([]);
  expect(mail!.to).toBe("ovens@alder.example");
  expect(mail!.body).toMatch(/We come \w{3} \d+ \w+, \d\d:\d\d to (\w{3} \d+ \w+, )?\d\d:\d\d for work order \d+/);
  expect(mail!.body).toContain("technician comes.");
  expect(mail!.body).not.toContain("technician of alder");
  await replan(id, 1, tomorrow, tomorrow + HOUR / 2);
  expect(await pass()).toEqual([]);
  expect((await outbox()).map(({ state, why }) => `${state} ${why}`)).toEqual(["dropped nothing-new", "sent "]);
});

test("three changes within two minutes are one message, and a change taken back is none", async () => {
  const id = await planned(tomorrow);
  expect(await pass()).toHaveLength(1);
  await replan(id, 1, tomorrow + 3 * HOUR);
  await replan(id, 2, tomorrow + 4 * HOUR);
  await replan(id, 3, tomorrow + 5 * HOUR);
  const [changed, ...more] = await pass();
  expect(more).toEqual([]);
  expect(changed!.subject).toContain("our visit is now");
  await replan(id, 4, tomorrow);
  await replan(id, 5, tomorrow + 5 * HOUR);
  expect(await pass()).toEqual([]);
});

test("a start that leaves its promise is told with what was promised; on the way and cancelled are told", async () => {
  const id = await planned(tomorrow);
  await pass();
  await replan(id, 1, tomorrow, tomorrow + 4 * HOUR);
  const [late] = await pass();
  expect(late!.subject).toContain("we cannot keep the time we promised");
  expect(late!.body).toMatch(/We promised to come .* to .* We expect to come .*, about \d\d:00 instead/);
  const { company, technician, dispatcher } = database.alder;
  await withTenant(company, (tx) => moveVisit(tx, id, "on-the-way", technician.personId));
  const [way, ...more] = await pass();
  expect(more).toEqual([]);
  expect(way!.body).toContain("technician is on the way to you");
  await withTenant(company, (tx) => moveVisit(tx, id, "cancelled", dispatcher.personId));
  expect((await pass()).map(({ subject }) => subject)).toEqual(["alder: our visit is cancelled"]);
});

test("nobody is written to who did not agree, whose agreement was taken back meanwhile, or twelve hours late", async () => {
  await consent(false);
  await planned(tomorrow);
  expect(await outbox()).toEqual([]);
  await consent(true);
  await planned(tomorrow);
  await consent(false);
  expect(await pass()).toEqual([]);
  await consent(true);
  await planned(tomorrow);
  await sql("update customer_message set made_at = now() - interval '13 hours' where state = 'waiting'");
  expect(await pass()).toEqual([]);
  expect((await outbox()).map(({ why }) => why).sort()).toEqual(["no-consent", "too-late"]);
});

test("a change that came to nothing leaves no message, and the other company sees none", async () => {
  const { alder, birch } = database;
  await expect(
    withTenant(alder.company, async (tx) => {
      await planVisit(tx, alder.workOrderId, plan(tomorrow));
      throw new Error("rolled back");
    }),
  ).rejects.toThrow("rolled back");
  expect(await outbox()).toEqual([]);
  await planned(tomorrow);
  expect(await withTenant(birch.company, (tx) => tx.customerMessage.count())).toBe(0);
  expect(await outbox()).toHaveLength(1);
});

test("refused for now it is sent again, for good it is given up, and where nobody knows it is never sent twice", async () => {
  await planned(tomorrow);
  expect(await pass({ became: "put-off", why: "smtp-451" })).toHaveLength(1);
  expect(await outbox()).toMatchObject([{ state: "waiting", why: "smtp-451" }]);
  expect(await pass()).toHaveLength(1);
  expect(await pass()).toEqual([]);
  await planned(tomorrow);
  expect(await pass({ became: "refused", why: "smtp-550" })).toHaveLength(1);
  expect(await pass()).toEqual([]);
  await planned(tomorrow);
  expect(await pass({ became: "unsure" })).toHaveLength(1);
  expect(await pass()).toEqual([]);
  expect((await outbox()).map(({ state }) => state)).toEqual(["unsure", "failed", "sent"]);
});

test("a process that died while sending leaves it unsure: another does not send it again", async () => {
  await planned(tomorrow);
  const died = pass(() => new Promise(() => {}));
  await expect.poll(async () => (await outbox())[0]?.state).toBe("sending");
  await sql("update gate.job set held_until = now() - interval '1 second'");
  expect(await pass()).toEqual([]);
  expect((await outbox()).map(({ state }) => state)).toEqual(["unsure"]);
  void died;
});

test("the outbox keeps the words without the way in; the link opens the order until it is taken back", async () => {
  const { company, workOrderId, dispatcher } = database.alder;
  await planned(tomorrow);
  const [mail] = await pass();
  const address = /https:\/\/dryhold\.example\/visit\/([\w-]{24})\n/.exec(mail!.body)!;
  expect((await outbox())[0]!.body).not.toContain(address[1]);
  const find = () => findStatusLink(linkTokenHash(address[1]!));
  expect(await find()).toMatchObject({ companyId: company, workOrderId, revokedAt: null });
  const hashOf = () => linkTokenHash("another");
  const known = await withTenant(company, (tx) => ensureStatusLink(tx, workOrderId, hashOf));
  expect(linkAddress("visit", known)).toBe(address[0].trim());
  await withTenant(database.birch.company, async (tx) => {
    expect(await revokeStatusLink(tx, workOrderId, database.birch.dispatcher.personId)).toBe(false);
  });
  await withTenant(company, (tx) => revokeStatusLink(tx, workOrderId, dispatcher.personId));
  expect((await find())!.revokedAt).not.toBeNull();
  await planned(tomorrow);
  const [next] = await pass();
  expect(next!.body).not.toContain(address[1]);
});

test("a mail server is spoken to: taken, refused for now or for good, not there, gone after the text was handed over", async () => {
  const taken: { to: string; words: string }[] = [];
  let answer: number | "gone" = 250;
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ["STARTTLS"],
    async onData(stream, session, done) {
      const words = await text(stream);
      if (answer === "gone") {
        for (const socket of open) socket.destroy();
        return;
      }
      if (answer !== 250) return done(Object.assign(new Error("no"), { responseCode: answer }));
      taken.push({ to: session.envelope.rcptTo[0]!.address, words });
      done();
    },
  });
  server.on("error", () => {});
  const open = new Set<{ destroy(): void }>();
  const listening = server.listen(0, "127.0.0.1");
  listening.on("connection", (socket) => open.add(socket));
  await new Promise((resolve) => listening.once("listening", resolve));
  const { port } = listening.address() as { port: number };
  const mail = { id: "one", fromName: "Alder, Sons", to: "a@b.example", subject: "Visit", body: "Good day." };
  const send = () => mailBySmtp({ url: `smtp://127.0.0.1:${port}`, from: "office@alder.example" })(mail);
  expect(await send()).toEqual({ became: "sent" });
  expect(taken).toMatchObject([{ to: "a@b.example" }]);
  expect(taken[0]!.words).toContain("Message-ID: <one@alder.example>");
  answer = 451;
  expect(await send()).toEqual({ became: "put-off", why: "smtp-451" });
  answer = 550;
  expect(await send()).toEqual({ became: "refused", why: "smtp-550" });
  answer = "gone";
  expect(await send()).toEqual({ became: "unsure" });
  await new Promise<void>((resolve) => server.close(() => resolve()));
  const nobody = createServer().listen(port, "127.0.0.1");
  await new Promise<void>((resolve) => nobody.once("listening", () => nobody.close(() => resolve())));
  expect(await send()).toMatchObject({ became: "put-off" });
  expect(taken).toHaveLength(1);
});
