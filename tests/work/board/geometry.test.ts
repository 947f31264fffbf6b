import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { BoardDay } from "@/lib/work/board/board";
import { clockOf } from "@/lib/work/board/board";
import { indexBoard } from "@/lib/work/board/board-index";
import { layOutRow } from "@/lib/work/board/rows";
import { fractionOf, hourMarks, instantAtFraction, scaleOf, stepMinutesOf } from "@/lib/work/board/time-scale";
import { dayClock } from "@/lib/work/day/day-clock";
import { addDays, dateWords } from "@/lib/work/site-time";
import { ANA, at, DAY, visit } from "../day/day-maker";
import { boardOf } from "./board-maker";

const daysFrom = (first: string, count: number, zone = "America/Chicago"): BoardDay[] =>
  Array.from({ length: count }, (_, n) => {
    const day = addDays(first, n);
    return { day, originMs: dayClock(day, zone).instantOf(0).getTime(), words: dateWords(day) };
  });

describe("the board's width", () => {
  test("a place across the board and the instant there are one, also where the clocks change", () => {
    const across = fc.double({ min: 0, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(
        across,
        fc.constantFrom(1, 3, 7),
        fc.constantFrom("2026-03-06", "2026-10-30", DAY),
        (x, count, first) => {
          const scale = scaleOf(daysFrom(first, count), []);
          const ms = instantAtFraction(scale, x, stepMinutesOf(scale));
          const stepFraction = (stepMinutesOf(scale) * 60) / (scale.toS - scale.fromS) / count;
          expect(Math.abs(fractionOf(scale, ms) - x)).toBeLessThanOrEqual(stepFraction / 2 + 1e-9);
        },
      ),
    );
  });

  test("later is never further left", () => {
    const scale = scaleOf(daysFrom(DAY, 3), []);
    let last = -1;
    for (let ms = scale.days[0]!.originMs - 3.6e6; ms < scale.days[2]!.originMs + 9e7; ms += 600_000) {
      const x = fractionOf(scale, ms);
      expect(x).toBeGreaterThanOrEqual(last);
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(1);
      last = x;
    }
  });

  test("the hours hold every bar and bracket, in whole hours", () => {
    const early = visit({ people: [ANA], plannedStart: at("05:40"), plannedMinutes: 30 });
    const late = visit({
      people: [ANA],
      plannedStart: at("18:00"),
      window: { from: at("17:00"), to: at("21:30") },
    });
    const board = boardOf({ visits: [early, late] });
    const scale = scaleOf(board.days, board.visits);
    expect([scale.fromS / 3600, scale.toS / 3600]).toEqual([5, 22]);
    expect(hourMarks(scale)[0]!.words).toBe("05:00");
  });

  test("dragging goes in steps of five minutes on a day and half hours on a week", () => {
    const scale = scaleOf(daysFrom(DAY, 1), []);
    expect(clockOf(scale.days, instantAtFraction(scale, 0.5, 5))).toBe("12:30");
    expect(stepMinutesOf(scaleOf(daysFrom(DAY, 7), []))).toBe(30);
  });
});

describe("a row", () => {
  const rowOf = (...visits: ReturnType<typeof visit>[]) => {
    const board = boardOf({ visits });
    const scale = scaleOf(board.days, board.visits);
    return layOutRow(board, scale, indexBoard(board).stopsOf(ANA, 0));
  };

  test("puts visits that overlap under each other and others in one line", () => {
    const row = rowOf(
      visit({ people: [ANA], plannedStart: at("09:00"), plannedMinutes: 120 }),
      visit({ people: [ANA], plannedStart: at("10:00") }),
      visit({ people: [ANA], plannedStart: at("11:00") }),
    );
    expect(row.lanes).toBe(2);
    expect(row.bars.map(({ lane }) => lane)).toEqual([0, 1, 0]);
  });

  test("a bar that starts after its promise leaves its bracket by so many minutes", () => {
    const [bar] = rowOf(
      visit({ people: [ANA], plannedStart: at("12:40"), window: { from: at("10:00"), to: at("12:00") } }),
    ).bars;
    expect(bar!.outside).toMatchObject({ minutes: 40, late: true });
    expect(bar!.bracket!.left + bar!.bracket!.width).toBeCloseTo(bar!.outside!.left, 9);
  });

  test("the way between two stops ends where the next begins, and is tight where time is short", () => {
    const far = { latitudeDeg: 40.1, longitudeDeg: -105.2 };
    const row = rowOf(
      visit({ people: [ANA], plannedStart: at("09:00"), at: far }),
      visit({ people: [ANA], plannedStart: at("10:10") }),
    );
    expect(row.ways).toHaveLength(1);
    expect(row.ways[0]!.isTight).toBe(true);
    expect(row.ways[0]!.left + row.ways[0]!.width).toBeCloseTo(row.bars[1]!.left, 9);
  });

  test("brackets that cross lie on rails of their own", () => {
    const window = { from: at("09:00"), to: at("12:00") };
    const row = rowOf(
      visit({ people: [ANA], plannedStart: at("09:00"), window }),
      visit({ people: [ANA], plannedStart: at("10:30"), window }),
      visit({ people: [ANA], plannedStart: at("13:00"), window: { from: at("12:00"), to: at("14:00") } }),
    );
    expect(row.bars.map(({ bracket }) => bracket!.level)).toEqual([0, 1, 0]);
  });
});
