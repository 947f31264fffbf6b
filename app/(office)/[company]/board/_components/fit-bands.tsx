"use client";

import { useMemo } from "react";
import type { BoardPerson, BoardVisit } from "@/lib/work/board/board";
import type { BoardIndex } from "@/lib/work/board/board-index";
import { listFittingStarts, listLasting, type Span } from "@/lib/work/board/fit";
import { fractionOf, type TimeScale } from "@/lib/work/board/time-scale";
import type { RowRange } from "./use-rows-in-sight";

/** While something is carried: where it could start on each row, and in words why a row cannot take it. */
export function FitBands(props: {
  index: BoardIndex;
  scale: TimeScale;
  people: readonly BoardPerson[];
  tops: readonly number[];
  heights: readonly number[];
  drawn: RowRange;
  visit: BoardVisit;
}) {
  const { index, scale, people, tops, heights, drawn, visit } = props;
  const judged = useMemo(() => judgeOnce(index, visit), [index, visit]);
  const days = scale.days.length;
  return (
    <div aria-hidden="true" className="pointer-events-none absolute inset-0 z-10">
      {people.slice(drawn.from, drawn.to + 1).map((person, n) =>
        judged(person).map(({ why, spans }, d) => (
          <div
            key={`${person.id} ${scale.days[d]!.day}`}
            className={why ? "absolute overflow-hidden bg-refused-wash/75" : "absolute"}
            style={{
              top: tops[drawn.from + n],
              height: heights[drawn.from + n]! - 1,
              left: `${(d / days) * 100}%`,
              width: `${100 / days}%`,
            }}
          >
            {why && days <= 3 && (
              <span className="absolute right-1 bottom-0.5 max-w-full truncate text-small text-refused">{why}</span>
            )}
            {spans.map(({ fromMs, toMs }) => {
              const left = fractionOf(scale, fromMs) * days - d;
              const right = fractionOf(scale, toMs) * days - d;
              return (
                <span
                  key={fromMs}
                  className="absolute inset-y-0 border-x-2 border-proven bg-proven-wash/70"
                  style={{ left: `${left * 100}%`, width: `max(4px, ${(right - left) * 100}%)` }}
                />
              );
            })}
          </div>
        )),
      )}
    </div>
  );
}

interface Band {
  readonly why: string | null;
  readonly spans: readonly Span[];
}

/** Judges a person's days when their row first comes into sight. */
function judgeOnce(index: BoardIndex, visit: BoardVisit): (person: BoardPerson) => readonly Band[] {
  const kept = new Map<string, readonly Band[]>();
  return (person) => {
    const before = kept.get(person.id);
    if (before) return before;
    const bands = person.days.map((_, d): Band => {
      const [lasting] = listLasting(index, visit, person, d);
      if (lasting) return { why: lasting.words, spans: [] };
      return { why: null, spans: listFittingStarts(index, visit, person.id, d) };
    });
    kept.set(person.id, bands);
    return bands;
  };
}
