import ICAL from "ical.js";
import { afterAll, beforeAll, expect, test } from "vitest";
import { GET } from "@/app/calendar/[token]/route";
import { linkAddress, linkHashOf } from "@/lib/auth/link-token";
import { makeCalendarFeed, revokeCalendarFeed } from "@/lib/db/calendar-feeds";
import { withTenant } from "@/lib/db/tenant";
import { moveVisit, planVisit } from "@/lib/db/visits";
import { withConnection } from "./fresh-database";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  process.env.NEXTAUTH_SECRET = "x".repeat(32);
  process.env.NEXTAUTH_URL = "https://dryhold.example";
  database = await twoCompanies();
});
afterAll(() => database.drop());

const make = ({ company, technician }: Planted) =>
  withTenant(company, (tx) => makeCalendarFeed(tx, technician.personId, linkHashOf("calendar")));
const tokenOf = (id: string) => new URL(linkAddress("calendar", id)).pathname.split("/").at(-1)!;
const ask = (token: string) =>
  GET(new Request("http://localhost/calendar", { headers: { "x-forwarded-for": "203.0.113.7" } }), {
    params: Promise.resolve({ token }),
  });
const eventsOf = (words: string) =>
  new ICAL.Component(ICAL.parse(words)).getAllSubcomponents("vevent").map((each) => new ICAL.Event(each));

test("another library reads the visits of the person alone: instants, length, place, words with commas and line ends", async () => {
  const { alder, birch } = database;
  const start = new Date(Math.ceil(Date.now() / 60_000) * 60_000 + 86_400_000);
  const window = { from: start, to: new Date(start.getTime() + 7_200_000) };
  const people = [alder.technician.personId];
  const ids = await withTenant(alder.company, async (tx) => {
    await tx.site.updateMany({
      data: {
        street: "12 Elm; back door, left",
        city: "Fort Hale",
        postalCode: "80100",
        latitude: 39.5,
        longitude: -104.9,
        accessNote: "Ring twice\nMind the dog",
      },
    });
    const plans = [
      { window, plannedStart: start, plannedMinutes: 95, people },
      { window, plannedStart: null, plannedMinutes: 60, people },
      { window, plannedStart: start, plannedMinutes: 60, people },
      { window, plannedStart: start, plannedMinutes: 60, people: [] },
    ];
    const made: string[] = [];
    for (const plan of plans) {
      const visit = await planVisit(tx, alder.workOrderId, plan);
      if (visit.ok) made.push(visit.value);
    }
    await moveVisit(tx, made[2]!, "cancelled", alder.dispatcher.personId);
    return made;
  });
  await make(birch);
  const answer = await ask(tokenOf((await make(alder))!));
  expect(answer.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
  const words = await answer.text();
  expect(words.split("\r\n").every((line) => Buffer.byteLength(line) <= 75)).toBe(true);
  const events = eventsOf(words);
  expect(events.map(({ uid }) => uid).sort()).toEqual(
    ids
      .slice(0, 3)
      .map((id) => `${id}@dryhold`)
      .sort(),
  );
  const of = (id: string) => events.find(({ uid }) => uid === `${id}@dryhold`)!;
  const first = of(ids[0]!);
  expect(first.startDate.toJSDate()).toEqual(start);
  expect(first.duration.toSeconds()).toBe(95 * 60);
  expect(first.location).toContain("12 Elm; back door, left, 80100 Fort Hale");
  expect(first.description).toContain("Access: Ring twice\nMind the dog");
  expect(first.component.getFirstPropertyValue("geo")).toEqual([39.5, -104.9]);
  const status = (id: string) => of(id).component.getFirstPropertyValue("status");
  expect(ids.slice(0, 3).map(status)).toEqual(["CONFIRMED", "TENTATIVE", "CANCELLED"]);
  expect(of(ids[1]!).endDate.toJSDate()).toEqual(window.to);
  expect(of(ids[2]!).sequence).toBe(2);
});

test("an address asked for again is the same, taken back it opens nothing, and the next is another", async () => {
  const { alder } = database;
  const first = (await make(alder))!;
  expect(await make(alder)).toBe(first);
  expect((await ask(tokenOf(first))).status).toBe(200);
  await withTenant(database.birch.company, async (tx) => {
    expect(await revokeCalendarFeed(tx, alder.technician.personId)).toBe(false);
  });
  await withTenant(alder.company, (tx) => revokeCalendarFeed(tx, alder.technician.personId));
  expect((await ask(tokenOf(first))).status).toBe(404);
  const next = (await make(alder))!;
  expect(next).not.toBe(first);
  expect((await ask(tokenOf(next))).status).toBe(200);
});

test("somebody who left, or is no technician any more, has no calendar; nor has a person of another company", async () => {
  const { alder, birch } = database;
  const id = (await make(alder))!;
  const sql = (words: string) =>
    withConnection(database.adminUrl, (client) => client.query(words, [alder.technician.personId]));
  await sql("update member set active = false where person_id = $1");
  expect((await ask(tokenOf(id))).status).toBe(404);
  await sql("update member set active = true, roles = '{supervisor}' where person_id = $1");
  expect((await ask(tokenOf(id))).status).toBe(404);
  await sql("update member set roles = '{technician}' where person_id = $1");
  expect((await ask(tokenOf(id))).status).toBe(200);
  const foreign = await withTenant(birch.company, (tx) =>
    makeCalendarFeed(tx, alder.technician.personId, linkHashOf("calendar")),
  );
  expect(foreign).toBeNull();
});

test("who tries addresses is made to wait", async () => {
  const guess = (n: number) => String(n).padStart(24, "A");
  let status = 0;
  for (let n = 0; n < 80 && status !== 429; n++) status = (await ask(guess(n))).status;
  expect(status).toBe(429);
});
