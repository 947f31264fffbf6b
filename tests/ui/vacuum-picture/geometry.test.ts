import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { keepExtremes } from "@/components/vacuum-picture/decimate";
import { layoutPicture } from "@/components/vacuum-picture/layout";
import { placeLabels, placeMarks } from "@/components/vacuum-picture/marks";
import { nearestSample } from "@/components/vacuum-picture/nearest";
import {
  closePressureSpanPa,
  elapsedWords,
  listPressureTicks,
  listTimeTicks,
  pressureScale,
  pressureWords,
  usualPressureSpanPa,
} from "@/components/vacuum-picture/scale";
import { listStretches, traceOf, usualGapS } from "@/components/vacuum-picture/trace";
import { toPa } from "@/lib/hvac/units";

const micron = (value: number) => toPa(value, "micron");
const pressure = fc.double({ min: 0.2, max: 110_000, noNaN: true });

describe("the pressure axis", () => {
  test("runs from atmosphere to 50 micron, and deeper only where the record does", () => {
    expect(usualPressureSpanPa(micron(300))[0]).toBeCloseTo(micron(50), 10);
    expect(usualPressureSpanPa(micron(20))[0]).toBeCloseTo(micron(16), 10);
    expect(usualPressureSpanPa(0.000_01)[0]).toBeCloseTo(micron(1), 10);
  });

  test("a higher pressure is never drawn lower", () => {
    const y = pressureScale(usualPressureSpanPa(undefined), 400, 20);
    fc.assert(fc.property(pressure, pressure, (one, other) => one > other || y(one) >= y(other)));
  });

  test("equal ratios take equal heights: each decade of microns is as tall as the next", () => {
    const y = pressureScale(usualPressureSpanPa(undefined), 4000, 0);
    expect(y(micron(100)) - y(micron(1000))).toBeCloseTo(y(micron(1000)) - y(micron(10_000)), 0);
  });

  test("names the decades, the foot and one atmosphere, which is 760,000 micron by the definition of the torr", () => {
    const named = listPressureTicks(usualPressureSpanPa(undefined), "micron").filter((tick) => tick.words);
    expect(named.map((tick) => tick.words)).toEqual(["50", "100", "1,000", "10,000", "100,000", "760,000"]);
  });

  test.each(["Pa", "mbar"] as const)("in %s no named tick crowds the atmosphere's", (unit) => {
    const named = listPressureTicks(usualPressureSpanPa(undefined), unit).filter((tick) => tick.words);
    const at = named.map((tick) => tick.at).sort((one, other) => other - one);
    expect((at[0] as number) / (at[1] as number)).toBeGreaterThan(1.5);
  });

  test("a close-up holds everything it is given and never less than a factor of four", () => {
    fc.assert(
      fc.property(fc.array(pressure, { minLength: 1, maxLength: 20 }), (pressures) => {
        const [low, high] = closePressureSpanPa(pressures);
        expect(high / low).toBeGreaterThanOrEqual(3.999);
        expect(low).toBeLessThanOrEqual(Math.min(...pressures));
        expect(high).toBeGreaterThanOrEqual(Math.max(...pressures));
      }),
    );
  });

  test("words carry the unit, and micron readings stay whole", () => {
    expect(pressureWords(micron(18_652.4), "micron")).toBe("18,652 micron");
    expect(pressureWords(66.66, "Pa")).toBe("66.7 Pa");
    expect(pressureWords(66.66, "mbar")).toBe("0.667 mbar");
  });
});

describe("the time axis", () => {
  test("has round steps, about as many as asked for, all inside the time shown", () => {
    fc.assert(
      fc.property(fc.integer({ min: 60, max: 600_000 }), fc.integer({ min: 2, max: 12 }), (lengthS, most) => {
        const ticks = listTimeTicks({ fromS: 1000, toS: 1000 + lengthS }, most, { originS: 1000 });
        expect(ticks.length).toBeGreaterThanOrEqual(1);
        expect(ticks.length).toBeLessThanOrEqual(most + 1);
        for (const tick of ticks) {
          expect(tick.at).toBeGreaterThanOrEqual(1000);
          expect(tick.at).toBeLessThanOrEqual(1000 + lengthS);
        }
      }),
    );
  });

  test("with a zone it shows that zone's clock (Phoenix is UTC-7 all year: IANA tz database)", () => {
    const noonUtcS = Date.UTC(2026, 5, 1, 12) / 1000;
    const ticks = listTimeTicks({ fromS: noonUtcS, toS: noonUtcS + 1800 }, 4, { zone: "America/Phoenix" });
    expect(ticks[0]?.words).toBe("05:00");
  });

  test.each([
    [0, "0 min"],
    [40, "40 s"],
    [380, "6 min 20 s"],
    [5400, "1 h 30 min"],
    [-120, "−2 min"],
  ])("%d s reads %s", (seconds, words) => expect(elapsedWords(seconds)).toBe(words));
});

describe("thinning to pixel columns", () => {
  const record = fc
    .array(fc.tuple(fc.integer({ min: 0, max: 40 }), pressure), { minLength: 1, maxLength: 600 })
    .map((steps) => {
      let at = 0;
      return traceOf(
        steps.map(([waitS, pressureAbsPa]) => {
          at += waitS;
          return { atS: at, pressureAbsPa };
        }),
      );
    });

  test("every column keeps its lowest, highest, first and last sample, in time order, at most four", () => {
    fc.assert(
      fc.property(record, fc.integer({ min: 1, max: 90 }), (trace, columns) => {
        const count = trace.atS.length;
        const span = { fromS: 0, toS: (trace.atS[count - 1] as number) + 1 };
        const kept = keepExtremes(trace, { from: 0, to: count }, span, columns);
        const columnOf = (index: number) => Math.floor((trace.atS[index] as number) * (columns / span.toS));
        expect(kept).toEqual([...new Set(kept)].sort((one, other) => one - other));
        const all = new Map<number, number[]>();
        for (let index = 0; index < count; index += 1) {
          all.set(columnOf(index), [...(all.get(columnOf(index)) ?? []), index]);
        }
        for (const members of all.values()) {
          const keptHere = kept.filter((index) => members.includes(index));
          const pressures = (indices: number[]) => indices.map((index) => trace.pressureAbsPa[index] as number);
          expect(Math.min(...pressures(keptHere))).toBe(Math.min(...pressures(members)));
          expect(Math.max(...pressures(keptHere))).toBe(Math.max(...pressures(members)));
          expect(keptHere[0]).toBe(members[0]);
          expect(keptHere.at(-1)).toBe(members.at(-1));
          expect(keptHere.length).toBeLessThanOrEqual(4);
        }
      }),
    );
  });

  test("one spike among 50 000 samples is drawn", () => {
    const pressureAbsPa = new Float64Array(50_000).fill(60);
    pressureAbsPa[31_337] = 9000;
    const atS = Float64Array.from({ length: 50_000 }, (_, index) => index);
    const layout = layoutPicture(
      { trace: { atS, pressureAbsPa } },
      { widthPx: 760, heightPx: 400, textPx: 13, unit: "micron" },
    );
    expect(layout.traces).toHaveLength(1);
    expect(layout.traces[0]).toContain(` ${layout.y(9000)}`);
    expect((layout.traces[0] as string).split("L").length).toBeLessThan(4 * 760);
  });
});

describe("gaps", () => {
  test("a long silence, a step back in time, zero and NaN are not joined", () => {
    const at = [0, 5, 10, 200, 205, 100, 105, 110, 115, 120];
    const pressures = [90, 80, 70, 60, 50, 45, 0, 40, Number.NaN, 30];
    expect(listStretches({ atS: at, pressureAbsPa: pressures }, 25)).toEqual([
      { from: 0, to: 3 },
      { from: 3, to: 5 },
      { from: 5, to: 6 },
      { from: 7, to: 8 },
      { from: 9, to: 10 },
    ]);
  });

  test("readings by hand every minute are not all gaps", () => {
    const trace = traceOf([0, 60, 120, 180, 240].map((atS) => ({ atS, pressureAbsPa: 80 })));
    expect(listStretches(trace, usualGapS(trace))).toHaveLength(1);
  });

  test("a lone reading becomes a dot, an empty record nothing", () => {
    const frame = { widthPx: 400, heightPx: 260, textPx: 13, unit: "micron" } as const;
    const one = layoutPicture({ trace: traceOf([{ atS: 7, pressureAbsPa: 90 }]) }, frame);
    expect([one.dots.length, one.traces.length]).toEqual([1, 0]);
    const none = layoutPicture({ trace: traceOf([]) }, frame);
    expect([none.dots.length, none.traces.length, none.end]).toEqual([0, 0, null]);
  });
});

describe("words that must not cover each other", () => {
  const wanted = fc.array(
    fc.record({
      wantedY: fc.double({ min: -50, max: 450, noNaN: true }),
      heightPx: fc.double({ min: 8, max: 40, noNaN: true }),
      priority: fc.integer({ min: 1, max: 5 }),
    }),
    { maxLength: 12 },
  );

  test("labels at the line ends stay inside, in order and apart", () => {
    fc.assert(
      fc.property(wanted, (list) => {
        const labels = list.map((label, index) => ({ ...label, key: String(index) }));
        const placed = placeLabels(labels, 0, 400);
        const boxes = placed.map(({ key, y }) => {
          const height = (labels[Number(key)] as { heightPx: number }).heightPx;
          return { top: y - height / 2, bottom: y + height / 2 };
        });
        for (const [index, box] of boxes.entries()) {
          expect(box.top).toBeGreaterThanOrEqual(-1e-6);
          expect(box.bottom).toBeLessThanOrEqual(400 + 1e-6);
          if (index > 0) expect(box.top).toBeGreaterThanOrEqual((boxes[index - 1] as { bottom: number }).bottom - 1e-6);
        }
      }),
    );
  });

  test("a label with room stays exactly at its line", () => {
    const placed = placeLabels([{ key: "target", wantedY: 120, heightPx: 16, priority: 1 }], 0, 400);
    expect(placed).toEqual([{ key: "target", y: 120 }]);
  });

  test("two that collide share the way", () => {
    const two = ["a", "b"].map((key) => ({ key, wantedY: 100, heightPx: 20, priority: 1 }));
    expect(placeLabels(two, 0, 400).map((label) => label.y)).toEqual([90, 110]);
  });

  test("without room for all, the least important go", () => {
    const three = [3, 1, 2].map((priority) => ({ key: `p${priority}`, wantedY: 20, heightPx: 20, priority }));
    expect(
      placeLabels(three, 0, 45)
        .map((label) => label.key)
        .sort(),
    ).toEqual(["p2", "p3"]);
  });

  test("words of marks neither meet nor are crossed by another mark's line", () => {
    const marks = fc.array(
      fc.record({
        x: fc.double({ min: 60, max: 560, noNaN: true }),
        widthPx: fc.double({ min: 20, max: 160, noNaN: true }),
      }),
      {
        maxLength: 9,
      },
    );
    fc.assert(
      fc.property(marks, (list) => {
        const wantedMarks = list.map((mark, index) => ({ ...mark, key: String(index) }));
        const placed = placeMarks(wantedMarks, { leftPx: 60, rightPx: 760 }, 4).filter((mark) => mark.lane !== null);
        const boxes = placed.map((mark) => {
          const width = (wantedMarks[Number(mark.key)] as { widthPx: number }).widthPx;
          return {
            ...mark,
            lane: mark.lane as number,
            from: mark.anchor === "start" ? mark.x : mark.x - width,
            to: mark.anchor === "start" ? mark.x + width : mark.x,
          };
        });
        for (const one of boxes) {
          for (const other of boxes) {
            if (one === other) continue;
            if (one.lane === other.lane) expect(one.to <= other.from || one.from >= other.to).toBe(true);
            if (other.lane >= one.lane) expect(other.x > one.from && other.x < one.to).toBe(false);
          }
        }
      }),
    );
  });
});

test("the nearest reading is found by bisection, skipping what is no pressure", () => {
  const trace = { atS: [0, 10, 20, 30], pressureAbsPa: [90, 0, 70, 60] };
  expect([-5, 9, 12, 26, 99].map((atS) => nearestSample(trace, atS))).toEqual([0, 0, 2, 3, 3]);
  expect(nearestSample({ atS: [1], pressureAbsPa: [0] }, 1)).toBeUndefined();
});
