import fc from "fast-check";
import { expect, test } from "vitest";
import { type OrderFacts, orderStatus } from "@/lib/messages/order-status";
import { ABOUT_MS, type VisitFacts, whatToTell } from "@/lib/messages/what-to-tell";
import { wordMessage } from "@/lib/messages/words";

const NOW = Date.parse("2026-11-25T12:00:00Z");
const HOUR = 3_600_000;
const facts = (fromMs: number | null, startMs: number | null = null, cancelled = false): VisitFacts => ({
  cancelled,
  window: fromMs === null ? null : { fromMs, toMs: fromMs + 2 * HOUR },
  startMs,
});
const some = fc.record({
  cancelled: fc.boolean(),
  window: fc.option(
    fc.integer({ min: 0, max: 50 }).map((n) => ({ fromMs: NOW + n * HOUR, toMs: NOW + (n + 2) * HOUR })),
  ),
  startMs: fc.option(fc.integer({ min: 0, max: 50 * 60 }).map((n) => NOW + n * 60_000)),
});

test("nobody is told twice what they were told, and a first word is never a change", () => {
  fc.assert(
    fc.property(some, some, (told, now) => {
      expect(whatToTell(now, now, NOW)).toBeNull();
      expect(["promise", null]).toContain(whatToTell(null, now, NOW));
      if (told.cancelled && !now.cancelled) expect(whatToTell(told, now, NOW)).not.toBe("change");
    }),
  );
});

test("a time without a window is about: less than half an hour says nothing, more does", () => {
  const told = facts(null, NOW + HOUR);
  expect(whatToTell(told, facts(null, NOW + HOUR + ABOUT_MS - 1), NOW)).toBeNull();
  expect(whatToTell(told, facts(null, NOW + HOUR + ABOUT_MS), NOW)).toBe("change");
});

test("what is past is not told, a time taken away is", () => {
  expect(whatToTell(null, facts(NOW - 5 * HOUR), NOW)).toBeNull();
  expect(whatToTell(facts(NOW + HOUR), facts(null), NOW)).toBe("change");
  expect(whatToTell(null, facts(null), NOW)).toBeNull();
});

test("messages speak of the site's clock and of first names", () => {
  const { subject, body } = wordMessage({
    said: "promise",
    facts: facts(Date.parse("2026-11-26T15:00:00Z")),
    companyName: "Fernhollow Cooling",
    orderNumber: 1043,
    siteName: "Store 2",
    timeZone: "America/Chicago",
    firstNames: ["Ines", "Tomas"],
    link: "{link}",
  });
  expect(subject).toBe("Fernhollow Cooling: visit Thu 26 Nov, 09:00 to 11:00");
  expect(body).toContain("We come Thu 26 Nov, 09:00 to 11:00 for work order 1043 (Store 2). Ines and Tomas come.");
});

test("of several visits the status page shows the one under way, else the next; a broken promise and a late visit are said", () => {
  const at = (state: string, shown: VisitFacts, firstNames: string[] = []) => ({ state, facts: shown, firstNames });
  const order = (...visits: OrderFacts["visits"]): OrderFacts => ({
    number: 7,
    state: "open",
    timeZone: "America/Chicago",
    visits,
  });
  const titleOf = (...visits: OrderFacts["visits"]) => orderStatus(order(...visits), new Date(NOW)).title;
  const [done, next] = [at("done", facts(NOW - 9 * HOUR)), at("planned", facts(NOW + HOUR), ["Ines"])];
  expect(orderStatus(order(done, next), new Date(NOW))).toMatchObject({ title: "Planned", who: "Ines" });
  expect(titleOf(next, at("on-the-way", facts(NOW)))).toBe("On the way");
  expect(titleOf(at("planned", facts(NOW + HOUR, NOW + 9 * HOUR)))).toBe("At another time than promised");
  expect(titleOf(at("planned", facts(NOW - 5 * HOUR)))).toBe("Late");
  expect(titleOf(at("planned", facts(null)))).toBe("No time yet");
  expect(titleOf()).toBe("No time yet");
  expect(orderStatus({ ...order(next), state: "done" }, new Date(NOW)).title).toBe("Done");
});
