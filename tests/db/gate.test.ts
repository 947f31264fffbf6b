import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { newInvitationToken } from "@/lib/auth/invitation-token";
import {
  ACCOUNT_PACE,
  ADDRESS_PACE,
  acceptInvitation,
  checkSession,
  endAllSessions,
  endSession,
  findInvitation,
  findSignIn,
  forgiveGuesses,
  invite,
  listInvitations,
  listSessions,
  membershipsOf,
  openSession,
  returnGuess,
  takeGuess,
  withdrawInvitation,
} from "@/lib/db/gate";
import { findMemberOf } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { PersonId } from "@/lib/ids";
import { withConnection } from "./fresh-database";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

const admin = (sql: string, values: unknown[] = []) =>
  withConnection(database.adminUrl, (client) => client.query(sql, values));
const longAgo = (key: string, interval: string) =>
  admin("update gate.guess set last_failed_at = last_failed_at - $2::interval where key = $1", [key, interval]);

describe("guessing", () => {
  let key: string;
  beforeEach(() => {
    key = `account:${uuidv7()}@alder.example`;
  });
  const guess = () => takeGuess(key, ACCOUNT_PACE);

  test("is free three times, then waits 2, 4, 8 … seconds, however often it is tried meanwhile", async () => {
    for (let n = 0; n < 3; n++) expect(await guess()).toBe(0);
    for (const waitS of [2, 4, 8, 16]) {
      expect(await guess()).toBe(waitS);
      const again = await guess();
      expect(again).toBeGreaterThan(0);
      expect(again).toBeLessThanOrEqual(waitS); // asking did not make it longer
      await longAgo(key, `${waitS} seconds`);
      expect(await guess()).toBe(0);
    }
  });

  test("never waits longer than 15 minutes, and is forgotten after a day", async () => {
    await guess();
    await admin("update gate.guess set failures = 1000, last_failed_at = now() where key = $1", [key]);
    expect(await guess()).toBe(900);
    await longAgo(key, "25 hours");
    for (let n = 0; n < 3; n++) expect(await guess()).toBe(0);
    expect(await guess()).toBe(2);
  });

  test("in a burst of forty gets no more tries than one by one", async () => {
    const answers = await Promise.all(Array.from({ length: 40 }, guess));
    expect(answers.filter((waitS) => waitS === 0)).toHaveLength(3);
  });

  test("for one account leaves another alone, and a right password starts afresh", async () => {
    for (let n = 0; n < 4; n++) await guess();
    expect(await takeGuess(`${key}.other`, ACCOUNT_PACE)).toBe(0);
    expect(await guess()).toBeGreaterThan(0);
    await forgiveGuesses(key);
    expect(await guess()).toBe(0);
  });

  test("from one address is free sixty times, as a whole office may sit behind it, and forgotten one by one", async () => {
    const fromOffice = () => takeGuess(key, ADDRESS_PACE);
    for (let n = 0; n < 60; n++) expect(await fromOffice()).toBe(0);
    expect(await fromOffice()).toBe(2);
    await longAgo(key, "150 seconds");
    for (let n = 0; n < 5; n++) expect(await fromOffice()).toBe(0);
    expect(await fromOffice()).toBe(2);
  });

  test("a right password from an address takes back its own guess only", async () => {
    for (let n = 0; n < 3; n++) await guess();
    await returnGuess(key);
    expect(await guess()).toBe(0); // the third place is free again
    expect(await guess()).toBeGreaterThan(0); // and the wrong ones still count
  });
});

describe("a session", () => {
  const person = () => database.alder.technician.personId;
  const open = async (ttlS = 3600) => {
    const id = uuidv7();
    await openSession(id, person(), "a test", ttlS);
    return id;
  };

  test("is its person's until it ends", async () => {
    const id = await open();
    expect(await checkSession(id)).toMatchObject({ personId: person(), email: "technician@alder.example" });
    await endSession(id, person());
    expect(await checkSession(id)).toBeNull();
  });

  test("expires", async () => {
    const id = await open();
    await admin("update gate.session set expires_at = now() - interval '1 second' where id = $1", [id]);
    expect(await checkSession(id)).toBeNull();
    expect((await listSessions(person())).map((one) => one.id)).not.toContain(id);
  });

  test("is not ended by somebody else", async () => {
    const id = await open();
    await endSession(id, database.alder.supervisor.personId);
    expect(await checkSession(id)).not.toBeNull();
  });

  test("everywhere ends with a sign-out everywhere, and nobody else's", async () => {
    const mine = [await open(), await open(), await open()];
    const other = uuidv7();
    await openSession(other, database.alder.supervisor.personId, "x".repeat(1000), 3600);
    expect(await endAllSessions(person())).toBeGreaterThanOrEqual(3);
    for (const id of mine) expect(await checkSession(id)).toBeNull();
    expect(await listSessions(person())).toEqual([]);
    expect(await checkSession(other)).not.toBeNull();
  });

  test("that never was is nobody's", async () => {
    expect(await checkSession(uuidv7())).toBeNull();
  });
});

describe("an invitation", () => {
  async function invited(email: string, at: Planted = database.alder, roles = ["technician"] as const) {
    const { token, tokenHash } = newInvitationToken();
    const by = at.supervisor.personId;
    const invitation = { id: uuidv7(), tokenHash, email, name: "As the office wrote it", roles, by, ttlS: 3600 };
    await withTenant(at.company, (tx) => invite(tx, invitation));
    return { ...invitation, token };
  }
  const newcomer = () => ({ person: PersonId.parse(uuidv7()), isNew: true, name: "Nell", passwordHash: "x" }) as const;

  test("makes the account and the membership, once", async () => {
    const { tokenHash } = await invited("Nell@New.example");
    expect(await findInvitation(tokenHash)).toMatchObject({ email: "nell@new.example", known_person: false });
    const taker = newcomer();
    expect(await acceptInvitation(tokenHash, taker)).toBe("alder");
    expect(await findSignIn("NELL@new.example")).toMatchObject({ personId: taker.person, name: "Nell" });
    expect(await membershipsOf(taker.person)).toMatchObject([{ slug: "alder", roles: ["technician"] }]);
    expect(await findInvitation(tokenHash)).toBeNull();
    expect(await acceptInvitation(tokenHash, newcomer())).toBeNull();
  });

  test("taken by many at once is taken by one", async () => {
    const { tokenHash } = await invited("many@new.example");
    const taken = await Promise.allSettled(Array.from({ length: 8 }, () => acceptInvitation(tokenHash, newcomer())));
    expect(taken.filter((one) => one.status === "fulfilled" && one.value === "alder")).toHaveLength(1);
    expect(taken.filter((one) => one.status === "fulfilled" && one.value === null)).toHaveLength(7);
  });

  test("brings a known person into a second company, with roles of its own there", async () => {
    const { technician } = database.birch;
    const { tokenHash } = await invited(technician.email);
    expect(await findInvitation(tokenHash)).toMatchObject({ known_person: true });
    expect(await acceptInvitation(tokenHash, { person: technician.personId, isNew: false })).toBe("alder");
    expect((await membershipsOf(technician.personId)).map(({ slug, roles }) => [slug, roles])).toEqual([
      ["alder", ["technician"]],
      ["birch", ["technician"]],
    ]);
    const member = await withTenant(database.alder.company, (tx) => findMemberOf(tx, technician.personId));
    expect(member?.name).toBe("As the office wrote it");
  });

  test("to who is a member already adds its roles, and opens a closed membership again", async () => {
    const { supervisor } = database.birch;
    await admin("update member set active = false where person_id = $1", [supervisor.personId]);
    expect(await membershipsOf(supervisor.personId)).toEqual([]);
    const { tokenHash } = await invited(supervisor.email, database.birch);
    await acceptInvitation(tokenHash, { person: supervisor.personId, isNew: false });
    const [membership] = await membershipsOf(supervisor.personId);
    expect(new Set(membership?.roles)).toEqual(new Set(["supervisor", "technician"]));
  });

  test("is not for a person with another address", async () => {
    const { tokenHash } = await invited("expected@new.example");
    const { dispatcher } = database.birch;
    expect(await acceptInvitation(tokenHash, { person: dispatcher.personId, isNew: false })).toBeNull();
    expect(await findInvitation(tokenHash)).not.toBeNull();
  });

  test("withdrawn or expired cannot be taken, and looks like none", async () => {
    const withdrawn = await invited("withdrawn@new.example");
    await withTenant(database.alder.company, (tx) => withdrawInvitation(tx, withdrawn.id));
    const expired = await invited("expired@new.example");
    await admin("update gate.invitation set expires_at = now() where id = $1", [expired.id]);
    for (const { tokenHash } of [withdrawn, expired]) {
      expect(await findInvitation(tokenHash)).toBeNull();
      expect(await acceptInvitation(tokenHash, newcomer())).toBeNull();
    }
    expect(await findSignIn("withdrawn@new.example")).toBeNull();
  });

  test("of one company is neither seen nor withdrawn by another", async () => {
    const { id, tokenHash } = await invited("private@new.example");
    await withTenant(database.birch.company, async (tx) => {
      expect((await listInvitations(tx)).map((one) => one.id)).not.toContain(id);
      await withdrawInvitation(tx, id);
    });
    expect(await findInvitation(tokenHash)).not.toBeNull();
    const seen = await withTenant(database.alder.company, listInvitations);
    expect(seen.map((one) => one.id)).toContain(id);
  });

  test("cannot be made without a company", async () => {
    const { tokenHash } = newInvitationToken();
    const making = withConnection(database.databaseUrl, (client) =>
      client.query("select gate.invite($1, $2, 'a@b.example', 'A', array['owner'], $3, 60)", [
        uuidv7(),
        Buffer.from(tokenHash),
        database.alder.supervisor.personId,
      ]),
    );
    await expect(making).rejects.toThrow(/null value in column "company_id"/);
  });
});

test("an inactive membership is none", async () => {
  const { dispatcher } = database.birch;
  expect(await membershipsOf(dispatcher.personId)).toMatchObject([{ slug: "birch" }]);
  await admin("update member set active = false where person_id = $1", [dispatcher.personId]);
  expect(await membershipsOf(dispatcher.personId)).toEqual([]);
});
