"use client";

import { useMemo } from "react";
import type { BoardPerson, BoardVisit } from "@/lib/work/board/board";
import type { BoardIndex } from "@/lib/work/board/board-index";
import { listFittingStarts, listLasting } from "@/lib/work/board/fit";
import { fractionOf, type TimeScale } from "@/lib/work/board/time-scale";

/** While something is carried: where it could start on each row, and in words why a row cannot take it. */
export function FitBands(props: {
  index: BoardIndex;
  scale: TimeScale;
  people: readonly BoardPerson[];
  tops: readonly number[];
  heights: readonly number[];
  visit: BoardVisit;
}) {
  const { index, scale, people, tops, heights, visit } = props;
  const rows = useMemo(
    () =>
      people.map((person) =>
        person.days.map((_, d) => {
          const [lasting] = listLasting(index, visit, person, d);
          return lasting
            ? { why: lasting.words, spans: [] }
            : { why: null, spans: listFittingStarts(index, visit, person.id, d) };
        }),
      ),
    [index, people, visit],
  );
  const days = scale.days.length;
  return (
    <div aria-hidden="true" className="pointer-events-none absolute inset-0 z-10">
      {rows.map((perDay, row) =>
        perDay.map(({ why, spans }, d) => (
          <div
            key={`${people[row]!.id} ${scale.days[d]!.day}`}
            className={why ? "absolute overflow-hidden bg-refused-wash/75" : "absolute"}
            style={{
              top: tops[row],
              height: heights[row]! - 1,
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
