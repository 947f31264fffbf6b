import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layoutCauses } from "@/components/quality-charts/cause-bars-layout";
import type { Frame } from "@/components/quality-charts/frame";
import { shareWords } from "@/components/quality-charts/frame";
import { layoutGaps } from "@/components/quality-charts/gap-points-layout";
import { layoutMonths } from "@/components/quality-charts/month-dots-layout";
import { layoutFunnel } from "@/components/quality-charts/people-funnel-layout";
import { layoutRateDots } from "@/components/quality-charts/rate-dots-layout";
import { layoutSurvival, rowsByWeek } from "@/components/quality-charts/survival-steps-layout";
import { chartJobsBetween, estimateRate, estimateSurvival, judgePeople } from "@/lib/quality";

const frames: readonly Frame[] = [
  { widthPx: 340, heightPx: 264, textPx: 12 },
  { widthPx: 640, heightPx: 297, textPx: 13.5 },
];
const tally = fc
  .record({ jobs: fc.integer({ min: 1, max: 5000 }), share: fc.double({ min: 0, max: 1, noNaN: true }) })
  .map(({ jobs, share }) => ({ jobs, callbacks: Math.floor(jobs * share) }));

/** Every number of a layout, also those inside its paths. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  if (typeof value === "string") return (value.match(/NaN|-?\d+(\.\d+)?(e-?\d+)?/g) ?? []).map(Number);
  return value && typeof value === "object" ? Object.values(value).flatMap(numbersIn) : [];
}

describe.each(frames)("on paper of $widthPx px", (frame) => {
  const within = (x: number) => x >= 0 && x <= frame.widthPx;

  test("dots and their intervals stand inside the plot, and a group without jobs has none", () => {
    fc.assert(
      fc.property(fc.array(tally, { minLength: 1, maxLength: 4 }), (tallies) => {
        const rows = [...tallies, { jobs: 0, callbacks: 0 }].map((each, index) => ({
          key: String(index),
          name: "Strong proof",
          ...estimateRate(each),
        }));
        const { plot, rows: drawn } = layoutRateDots(rows, frame);
        expect(drawn.at(-1)!.mark).toBeNull();
        for (const { mark } of drawn.slice(0, -1)) {
          expect(mark!.lowX).toBeGreaterThanOrEqual(plot.left - 0.01);
          expect(mark!.lowX).toBeLessThanOrEqual(mark!.x + 0.01);
          expect(mark!.highX).toBeGreaterThanOrEqual(mark!.x - 0.01);
          expect(mark!.highX).toBeLessThanOrEqual(plot.right + 0.01);
        }
      }),
    );
  });

  test("survival begins at the top left and never rises; the labels at its ends do not touch", () => {
    const follow = fc.array(fc.record({ day: fc.integer({ min: 0, max: 90 }), event: fc.boolean() }), {
      maxLength: 60,
    });
    fc.assert(
      fc.property(follow, follow, (sound, weak) => {
        const survival = { sound: estimateSurvival(sound), weak: estimateSurvival(weak) };
        const { lines, plot, shareTicks } = layoutSurvival(survival, 90, frame);
        expect(new Set(shareTicks.map(({ words }) => words)).size).toBe(shareTicks.length);
        expect(Math.min(...lines.map(({ end }) => end.y))).toBeGreaterThan(plot.top);
        for (const { path } of lines) {
          const points = numbersIn(path);
          expect(points.every(Number.isFinite)).toBe(true);
          expect(points[0]).toBeCloseTo(plot.left, 3);
        }
        expect(Math.abs(lines[0]!.end.y - lines[1]!.end.y)).toBeGreaterThanOrEqual(frame.textPx * 2.59);
      }),
    );
  });

  test("a table by weeks loses no callback and ends where the steps end", () => {
    const follow = fc.array(fc.record({ day: fc.integer({ min: 0, max: 90 }), event: fc.boolean() }), {
      maxLength: 200,
    });
    fc.assert(
      fc.property(follow, (group) => {
        const points = estimateSurvival(group);
        const rows = rowsByWeek(points);
        const events = (of: typeof rows) => of.reduce((sum, each) => sum + each.events, 0);
        expect(events(rows)).toBe(events(points));
        expect(rows.at(-1)?.survival).toBe(points.at(-1)?.survival);
        expect(rows.length).toBeLessThanOrEqual(20);
      }),
    );
  });

  test("people stand inside the plot; only beyond the outer limits is one marked", () => {
    fc.assert(
      fc.property(fc.array(tally, { minLength: 1, maxLength: 12 }), (tallies) => {
        const people = judgePeople(new Map(tallies.map((each, index) => [`t${index}`, each])));
        const pooled =
          tallies.reduce((sum, each) => sum + each.callbacks, 0) / tallies.reduce((sum, each) => sum + each.jobs, 0);
        const layout = layoutFunnel(people, pooled, frame);
        expect(numbersIn([layout.inner, layout.outer]).every(Number.isFinite)).toBe(true);
        for (const [index, { x, y, beyond }] of layout.dots.entries()) {
          expect(within(x)).toBe(true);
          expect(y).toBeGreaterThanOrEqual(layout.plot.top - 0.01);
          const { callbacks, limits998 } = people[index]!;
          expect(beyond === null).toBe(callbacks >= limits998[0] && callbacks <= limits998[1]);
        }
      }),
      { numRuns: 40 },
    );
  });

  test("gaps stand side by side in their order, higher where more jobs went well", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 60 }), (gaps) => {
        const { points } = layoutGaps(chartJobsBetween(gaps)!, frame);
        for (let at = 1; at < points.length; at += 1) {
          expect(points[at]!.x).toBeGreaterThan(points[at - 1]!.x);
          if (gaps[at]! > gaps[at - 1]!) expect(points[at]!.y).toBeLessThan(points[at - 1]!.y);
        }
        expect(points.every(({ x }) => within(x))).toBe(true);
      }),
    );
  });

  test("words under the months never run into each other", () => {
    const months = Array.from({ length: 60 }, (_, index) => ({
      month: `m${index}`,
      words: "Sep 2026",
      jobs: 40,
      callbacks: 2,
    }));
    const named = layoutMonths(months, frame).months.filter(({ words }) => words !== null);
    expect(named.length).toBeGreaterThan(2);
    for (let at = 1; at < named.length; at += 1)
      expect(named[at]!.x - named[at - 1]!.x).toBeGreaterThan("Sep 2026".length * frame.textPx * 0.5);
  });

  test("the weak part of a bar is never longer than the bar", () => {
    const causes = [0, 3, 9].map((ofWeakProof) => ({
      key: String(ofWeakProof),
      words: "Moisture left in the circuit",
      callbacks: 9,
      ofWeakProof,
      costWords: "$1",
    }));
    const { bars } = layoutCauses(causes, frame);
    expect(bars.map(({ widthPx, weakWidthPx }) => weakWidthPx <= widthPx)).toEqual([true, true, true]);
    expect(bars[2]!.weakWidthPx).toBe(bars[2]!.widthPx);
    expect(bars[0]!.weakWidthPx).toBe(0);
  });
});

test.each([
  [0, "0 %"],
  [0.004, "0.4 %"],
  [0.05, "5 %"],
  [0.0512, "5.1 %"],
  [0.0996, "10 %"],
  [0.25, "25 %"],
  [1, "100 %"],
])("a share of %d reads %s", (share, words) => {
  expect(shareWords(share)).toBe(words);
});
