"use client";

import type { PointerEvent as ReactPointerEvent } from "react";
import { classNames } from "@/components/ui/class-names";
import { Section } from "@/components/ui/section";
import { Urgency } from "@/components/work/marks";
import { type Board, type BoardVisit, clockOf, minutesWords } from "@/lib/work/board/board";

/** Calls and visits without a place, the most urgent first, each with what it needs. */
export function EdgeList(props: {
  board: Board;
  visits: readonly BoardVisit[];
  /** Beside each other under a board that takes the whole width. */
  across: boolean;
  selected: string | null;
  onSelect: (id: string) => void;
  onPointerDown: (event: ReactPointerEvent<HTMLElement>, visit: BoardVisit) => void;
  onCarry: (visit: BoardVisit) => void;
}) {
  const { visits, across } = props;
  return (
    <Section
      title={visits.length === 0 ? "Without a place" : `Without a place: ${visits.length}`}
      className="content-start"
    >
      {visits.length === 0 && <p className="text-ink-soft">Every call has a time and somebody to go.</p>}
      <ul
        className={classNames(
          "flex gap-3 overflow-x-auto",
          !across && "desk:grid desk:max-h-[60dvh] desk:gap-0 desk:overflow-x-visible desk:overflow-y-auto",
        )}
      >
        {visits.map((visit) => (
          <li key={visit.id} className={classNames("w-60 shrink-0", !across && "desk:w-auto")}>
            <button
              type="button"
              id={`edge-${visit.id}`}
              data-edge={visit.id}
              onPointerDown={(event) => props.onPointerDown(event, visit)}
              onClick={() => props.onSelect(visit.id)}
              onKeyDown={(event) => {
                if (event.key.toLowerCase() !== "m") return;
                event.preventDefault();
                props.onCarry(visit);
              }}
              aria-current={props.selected === visit.id || undefined}
              className={classNames(
                "visit-card grid w-full cursor-grab gap-0.5 border-b border-hairline px-1 py-2 text-left hover:bg-sunk",
                props.selected === visit.id && "bg-sunk",
              )}
            >
              <span className="flex justify-between gap-3">
                <span className="font-semibold">{visit.label}</span>
                <Urgency urgency={visit.urgency} />
              </span>
              <span>
                {visit.customer}, {visit.city}
              </span>
              <span className="line-clamp-2 text-small text-ink-soft">{visit.symptom}</span>
              <span className="text-small">{needWords(props.board, visit)}</span>
            </button>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function needWords(board: Board, visit: BoardVisit): string {
  const { window } = visit;
  const parts = [minutesWords(visit.minutes)];
  if (window) parts.push(`promised ${clockOf(board.days, window.fromMs)} to ${clockOf(board.days, window.toMs)}`);
  parts.push(...(visit.notes ?? []));
  parts.push(...visit.demands.slice(0, 2), ...Object.keys(visit.parts));
  if (visit.demands.length > 2) parts.push(`${visit.demands.length - 2} more`);
  return parts.join(" · ");
}
