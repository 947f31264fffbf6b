import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { indexBoard } from "@/lib/work/board/board-index";
import { isRefused, judgeFit, listFittingStarts } from "@/lib/work/board/fit";
import { ANA, at, BEN, circuit, mild, person, tool, visit } from "../day/day-maker";
import { boardOf } from "./board-maker";

const kinds = (index: ReturnType<typeof indexBoard>, id: string, personId: string, clock: string) =>
  judgeFit(index, index.visit.get(id)!, { personId, startMs: at(clock).getTime() }).map(({ kind }) => kind);

describe("a place on the board", () => {
  test("fits in shift, window and free time", () => {
    const call = visit({ window: { from: at("10:00"), to: at("12:00") } });
    const index = indexBoard(boardOf({ visits: [call] }));
    expect(kinds(index, call.id, ANA, "10:30")).toEqual([]);
  });

  test("outside the promise it says by how much, and the dispatcher may decide", () => {
    const call = visit({ window: { from: at("10:00"), to: at("12:00") } });
    const index = indexBoard(boardOf({ visits: [call] }));
    const [late] = judgeFit(index, index.visit.get(call.id)!, { personId: ANA, startMs: at("12:40").getTime() });
    expect(late).toEqual({ kind: "window", words: "40 min after its promise, 10:00 to 12:00." });
    expect(isRefused(late!)).toBe(false);
    expect(kinds(index, call.id, ANA, "09:00")).toEqual(["window"]);
  });

  test("without the certificate, the competence or the tool in date it is refused, in words", () => {
    const call = visit({ circuits: [mild] });
    const board = boardOf({
      people: [
        person(ANA, { certificates: [{ kind: "flammables", expiresOn: null }] }),
        person(BEN, { certificates: [{ kind: "us-universal", expiresOn: null }] }),
      ],
      tools: [
        tool(ANA, "pump", { ratedFor: ["A2L"] }),
        tool(BEN, "vacuum-gauge", { calibrationDueOn: new Date("2026-11-01") }),
      ],
      visits: [call],
    });
    const index = indexBoard(board);
    const at10 = at("10:00").getTime();
    const ofAna = judgeFit(index, index.visit.get(call.id)!, { personId: ANA, startMs: at10 });
    expect(ofAna.map(({ words }) => words)).toEqual([
      "Ana holds no Type II or Universal.",
      "Ana carries no vacuum gauge.",
    ]);
    const ofBen = judgeFit(index, index.visit.get(call.id)!, { personId: BEN, startMs: at10 });
    expect(ofBen.map(({ kind }) => kind)).toEqual(["competence", "tool", "tool-out-of-date"]);
    expect([...ofAna, ...ofBen].every(isRefused)).toBe(true);
    expect(ofBen[2]!.words).toBe("Ben carries a vacuum gauge that was due for its check on 2026-11-01.");
  });

  test("a part used up by another visit is no longer on the van", () => {
    const parts = { compressor: 1 };
    const first = visit({ parts, people: [ANA], plannedStart: at("09:00") });
    const second = visit({ parts });
    const index = indexBoard(boardOf({ people: [person(ANA, { stock: parts })], visits: [first, second] }));
    expect(kinds(index, second.id, ANA, "13:00")).toEqual(["part"]);
    expect(kinds(index, first.id, ANA, "13:00")).toEqual([]);
  });

  test("over another visit, or without time for the way, it says which", () => {
    const far = { latitudeDeg: 40.1, longitudeDeg: -105.2 };
    const first = visit({ people: [ANA], plannedStart: at("10:00"), at: far });
    const second = visit();
    const index = indexBoard(boardOf({ visits: [first, second] }));
    expect(kinds(index, second.id, ANA, "10:30")).toEqual(["overlap"]);
    const [tight] = judgeFit(index, index.visit.get(second.id)!, { personId: ANA, startMs: at("11:10").getTime() });
    expect(tight).toMatchObject({ kind: "travel" });
    expect(tight!.words).toMatch(/^The way from Work order 1 takes .*; there are 10 min\.$/);
  });

  test("the shift holds the way out and the way home", () => {
    const call = visit();
    const index = indexBoard(boardOf({ visits: [call] }));
    expect(kinds(index, call.id, ANA, "08:00")).toEqual(["shift"]);
    expect(kinds(index, call.id, ANA, "16:00")).toEqual(["shift"]);
  });

  test("nobody is sent who is away, rides along or stands beside one that has begun", () => {
    const begun = visit({ state: "on-site", people: [ANA], plannedStart: at("09:00") });
    const call = visit();
    const board = boardOf({
      people: [
        person(ANA, { times: [{ kind: "away", fromAt: at("00:00"), toAt: at("23:59") }] }),
        person(BEN, { ridesWith: ANA }),
      ],
      visits: [begun, call],
    });
    const index = indexBoard(board);
    expect(
      judgeFit(index, index.visit.get(call.id)!, { personId: ANA, startMs: at("10:00").getTime() })[0]!.words,
    ).toBe("Ana is away.");
    expect(kinds(index, begun.id, BEN, "10:00")).toEqual(["begun"]);
  });

  test("time that has passed is said", () => {
    const call = visit();
    const index = indexBoard(boardOf({ visits: [call] }, at("11:00")));
    expect(kinds(index, call.id, ANA, "10:00")).toEqual(["past"]);
  });
});

describe("the spans shown while dragging", () => {
  const minute = fc.integer({ min: 0, max: 16 * 4 }).map((quarter) => 6 * 60 + quarter * 15);
  const clock = (m: number) => `${String(Math.floor(m / 60)).padStart(2, "0")}:${String(m % 60).padStart(2, "0")}`;
  const place = fc.record({
    latitudeDeg: fc.double({ min: 39.5, max: 39.9, noNaN: true }),
    longitudeDeg: fc.double({ min: -105.2, max: -104.7, noNaN: true }),
  });
  const stop = fc.record({ m: minute, length: fc.integer({ min: 1, max: 8 }), at: place });

  test("hold exactly the starts that fit", () => {
    fc.assert(
      fc.property(
        fc.array(stop, { maxLength: 5 }),
        place,
        fc.option(minute, { nil: null }),
        minute,
        (stops, where, windowFrom, now) => {
          const others = stops.map(({ m, length, at: there }) =>
            visit({ people: [ANA], plannedStart: at(clock(m)), plannedMinutes: length * 15, at: there }),
          );
          const window = windowFrom === null ? null : { from: at(clock(windowFrom)), to: at(clock(windowFrom + 90)) };
          const call = visit({ at: where, window, plannedMinutes: 45 });
          const index = indexBoard(boardOf({ visits: [...others, call] }, at(clock(now))));
          const asked = index.visit.get(call.id)!;
          const spans = listFittingStarts(index, asked, ANA, 0);
          for (let m = 5 * 60; m < 23 * 60; m += 5) {
            const startMs = at(clock(m)).getTime();
            const shown = spans.some(({ fromMs, toMs }) => fromMs <= startMs && startMs <= toMs);
            const misfits = judgeFit(index, asked, { personId: ANA, startMs });
            expect([clock(m), shown, misfits]).toEqual([clock(m), misfits.length === 0, misfits]);
          }
        },
      ),
      { numRuns: 25 },
    );
  });
});

test("a circuit that is not opened asks for nothing", () => {
  const call = visit({ circuits: [circuit({ kind: "component_swap_not_opened" })] });
  const index = indexBoard(boardOf({ people: [person(ANA, { certificates: [] })], visits: [call] }));
  expect(kinds(index, call.id, ANA, "10:00")).toEqual([]);
});
