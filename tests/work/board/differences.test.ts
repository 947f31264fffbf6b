import { describe, expect, test } from "vitest";
import { listDifferences, type PlannedPlace } from "@/lib/work/board/differences";
import { ANA, at, BEN, person, visit } from "../day/day-maker";
import { boardOf } from "./board-maker";

const ms = (clock: string) => at(clock).getTime();
const to = (personId: string, clock: string): PlannedPlace => ({ people: [personId], startMs: ms(clock) });

const window = { from: at("09:00"), to: at("11:00") };
const standing = visit({ people: [ANA], plannedStart: at("10:00"), window });
const late = visit({ people: [ANA], plannedStart: at("13:00"), window });
const waiting = visit();
const people = [person(ANA), person(BEN)];
const board = boardOf({ people, visits: [standing, late, waiting] });
const differences = (after: readonly (readonly [string, PlannedPlace | null])[], open: [string, string][] = []) =>
  listDifferences(board, new Map(after), new Map(open));

describe("the differences of a proposal", () => {
  test("what stays within the minute is none", () => {
    expect(
      differences([
        [standing.id, { people: [ANA], startMs: ms("10:00") + 30_000 }],
        [waiting.id, null],
      ]),
    ).toEqual([]);
  });

  test("a move is told with people, clock time and minutes, and what it does to the promise", () => {
    const [moved] = differences([[standing.id, to(BEN, "11:20")]]);
    expect(moved).toMatchObject({
      kind: "moved",
      words: "Work order 1, Customer 1, goes from Ana to Ben at 11:20, 1 h 20 min later.",
      promise: "Its promise is broken: 20 min late.",
      breaksPromise: true,
    });
  });

  test("a promise kept again is said, with what was amiss as the reason", () => {
    const [moved] = differences([[late.id, to(BEN, "10:30")]]);
    expect(moved).toMatchObject({
      promise: "Its promise is kept again (it was 2 h late).",
      reason: "2 h after its promise, 09:00 to 11:00.",
    });
  });

  test("what takes the time of another is named as its reason", () => {
    const found = differences([
      [standing.id, to(BEN, "10:00")],
      [waiting.id, to(ANA, "10:15")],
    ]);
    expect(found.map(({ kind, reason }) => [kind, reason])).toEqual([
      ["moved", "Makes room for Work order 3."],
      ["new", "It had no place."],
    ]);
  });

  test("a visit that loses its place says why", () => {
    const [dropped] = differences(
      [[standing.id, null]],
      [[standing.id, "nobody has time left between 09:00 and 11:00"]],
    );
    expect(dropped).toMatchObject({
      kind: "dropped",
      words: "Work order 1, Customer 1, loses its place (Ana, 10:00).",
      promise: "Its promise is broken.",
      reason: "Nobody has time left between 09:00 and 11:00.",
    });
  });

  test("somebody away is the reason of what moves from them", () => {
    const away = person(ANA, { times: [{ kind: "away", fromAt: at("00:00"), toAt: at("23:59") }] });
    const [moved] = listDifferences(
      boardOf({ people: [away, person(BEN)], visits: [standing] }),
      new Map([[standing.id, to(BEN, "10:00")]]),
      new Map(),
    );
    expect(moved!.reason).toBe("Ana is away.");
    expect(moved!.words).toBe("Work order 1, Customer 1, goes from Ana to Ben at 10:00.");
  });

  const south = { latitudeDeg: 39.55, longitudeDeg: -104.95 };
  const north = { latitudeDeg: 39.9, longitudeDeg: -104.95 };
  const near = visit({ people: [ANA], plannedStart: at("09:00"), at: south });
  const far = visit({ people: [ANA], plannedStart: at("12:00"), at: north });
  const beside = visit({ people: [BEN], plannedStart: at("09:00"), at: north });
  const reasonsOf = (after: readonly (readonly [string, PlannedPlace])[]) =>
    listDifferences(boardOf({ people, visits: [near, far, beside] }), new Map(after), new Map()).map(
      ({ reason }) => reason,
    );

  test("a visit that lies on the way of somebody else moves for the driving it saves there", () => {
    const [reason] = reasonsOf([[far.id, to(BEN, "12:00")]]);
    expect(reason).toMatch(/^\d+ (min|h|h \d+ min) less driving to it and on from it\.$/);
  });

  test("a visit that starts later behind another one that changes says which", () => {
    expect(
      reasonsOf([
        [near.id, to(ANA, "08:00")],
        [far.id, to(ANA, "13:00")],
      ])[1],
    ).toBe("Follows Work order 1, which changes too.");
  });

  test("where nothing can be known it says no more than that", () => {
    expect(reasonsOf([[near.id, to(ANA, "08:00")]])).toEqual(["Fits the rest of the plan."]);
  });
});
