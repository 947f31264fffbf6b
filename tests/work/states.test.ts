import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mayCancel, mayFinish, type OrderParts } from "@/lib/work/order-state";
import { hasEnded, isMovable, isVisitState, mayBecome, type VisitState, visitStates } from "@/lib/work/visit-state";

const anyVisit = fc.constantFrom(...visitStates);
const anyOrder: fc.Arbitrary<OrderParts> = fc.record({
  state: fc.constantFrom("open" as const, "done" as const, "cancelled" as const),
  visits: fc.array(fc.record({ state: anyVisit }), { maxLength: 4 }),
  jobs: fc.array(
    fc.record({ number: fc.integer({ min: 1, max: 99 }), closed: fc.boolean(), hasFieldWork: fc.boolean() }),
    { maxLength: 4 },
  ),
});

/** The steps a visit may take, written out a second time as pairs. */
const legal = new Set([
  "planned>on-the-way",
  "planned>on-site",
  "planned>cancelled",
  "on-the-way>on-site",
  "on-the-way>planned",
  "on-the-way>cancelled",
  "on-site>left-for-today",
  "on-site>done",
]);

describe("a visit", () => {
  const pairs = visitStates.flatMap((from) => visitStates.map((to) => [from, to] as const));
  test.each(pairs)("from %s to %s only where it is a step", (from, to) => {
    expect(mayBecome(from, to)).toBe(legal.has(`${from}>${to}`));
  });

  test("that ended stays ended, whatever is asked of it", () => {
    fc.assert(
      fc.property(fc.array(anyVisit, { maxLength: 30 }), (asked) => {
        let state: VisitState = "planned";
        let ended = false;
        for (const to of asked) {
          if (mayBecome(state, to)) {
            expect(ended).toBe(false);
            state = to;
          }
          ended ||= hasEnded(state);
        }
        if (ended) expect(isMovable(state)).toBe(false);
      }),
      { numRuns: 2000 },
    );
  });

  test("once begun on site cannot be cancelled or moved to another time", () => {
    expect(mayBecome("on-site", "cancelled")).toBe(false);
    expect(isMovable("on-site")).toBe(false);
  });

  test("has no other state", () => {
    for (const odd of ["", "Planned", "toString", "constructor", null, undefined, 3, ["planned"]]) {
      expect(isVisitState(odd)).toBe(false);
    }
  });
});

describe("a work order", () => {
  test("is done only when it is open, nothing is under way and every job is closed", () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        const may =
          order.state === "open" &&
          order.visits.every(({ state }) => ["done", "left-for-today", "cancelled"].includes(state)) &&
          order.jobs.every(({ closed }) => closed);
        expect(mayFinish(order).ok).toBe(may);
      }),
      { numRuns: 3000 },
    );
  });

  test("is cancelled only when it is open, nobody is there and no circuit was worked on", () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        const may =
          order.state === "open" &&
          order.visits.every(({ state }) => state !== "on-site") &&
          order.jobs.every(({ hasFieldWork }) => !hasFieldWork);
        expect(mayCancel(order).ok).toBe(may);
      }),
      { numRuns: 3000 },
    );
  });

  test("says which jobs stand in the way", () => {
    const jobs = [
      { number: 7, closed: false, hasFieldWork: true },
      { number: 8, closed: true, hasFieldWork: true },
      { number: 9, closed: false, hasFieldWork: false },
    ];
    const order = { state: "open" as const, visits: [], jobs };
    expect(mayFinish(order)).toEqual({ ok: false, error: { code: "jobs-not-closed", numbers: [7, 9] } });
    expect(mayCancel(order)).toEqual({ ok: false, error: { code: "field-work-recorded", numbers: [7, 8] } });
  });

  test("that ended neither ends again nor the other way", () => {
    for (const state of ["done", "cancelled"] as const) {
      const order = { state, visits: [], jobs: [] };
      expect(mayFinish(order)).toEqual({ ok: false, error: { code: "not-open" } });
      expect(mayCancel(order)).toEqual({ ok: false, error: { code: "not-open" } });
    }
  });
});
