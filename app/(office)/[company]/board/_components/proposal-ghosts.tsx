"use client";

import type { Board, BoardPerson } from "@/lib/work/board/board";
import type { Difference } from "@/lib/work/board/differences";
import { fractionOf, type TimeScale } from "@/lib/work/board/time-scale";
import { BAR_PX, ROW_PAD_PX } from "./row-heights";

/** Where a proposal would put things, over the bars as they stand. */
export function ProposalGhosts(props: {
  board: Board;
  scale: TimeScale;
  people: readonly BoardPerson[];
  tops: readonly number[];
  differences: readonly Difference[];
  chosen: ReadonlySet<string>;
}) {
  const { scale, people, tops } = props;
  return (
    <div aria-hidden="true" className="pointer-events-none absolute inset-0 z-10">
      {props.differences.flatMap(({ id, to, minutes, customer, breaksPromise }) => {
        if (to === null || !props.chosen.has(id)) return [];
        const left = fractionOf(scale, to.startMs);
        const width = fractionOf(scale, to.startMs + minutes * 60_000) - left;
        return to.people.flatMap((personId) => {
          const row = people.findIndex((person) => person.id === personId);
          if (row < 0) return [];
          return (
            <span
              key={`${id} ${personId}`}
              data-ghost={id}
              className={`board-ghost absolute truncate rounded-control px-1 text-small leading-7 ${breaksPromise ? "text-refused" : ""}`}
              style={{
                left: `${left * 100}%`,
                width: `max(${width * 100}%, 6px)`,
                top: tops[row]! + ROW_PAD_PX + 5,
                height: BAR_PX,
              }}
            >
              {customer}
            </span>
          );
        });
      })}
    </div>
  );
}
