"use client";

import "./board.css";
import { memo } from "react";
import { visitMark } from "@/components/work/marks";
import { type Board, type BoardPerson, clockOf, endMs, isMovable, minutesWords } from "@/lib/work/board/board";
import { isRefused, type Misfit } from "@/lib/work/board/fit";
import { fitWords } from "@/lib/work/board/fit-words";
import type { Bar, Row } from "@/lib/work/board/rows";
import { fractionOf, type TimeScale } from "@/lib/work/board/time-scale";
import { BAR_PX, LANE_PX, ROW_PAD_PX, rowHeightPx } from "./row-heights";
import { RowLines } from "./row-lines";

const ROOM_FOR_MARK_PX = 13;
/** Shares of the board's width from which a bar has room for mark and name side by side, and for the time too. */
const ROOM_FOR_BOTH = 0.1;
const ROOM_FOR_TIME = 0.13;

const percent = (fraction: number) => `${(fraction * 100).toFixed(3)}%`;

export interface BoardRowProps {
  readonly board: Board;
  readonly scale: TimeScale;
  readonly person: BoardPerson;
  readonly row: Row;
  /** Width of the hours, as far as it is known. */
  readonly acrossPx: number;
  /** False far from what is seen: the row keeps its height and says in words what is on it. */
  readonly isDrawn: boolean;
  readonly gaps: ReadonlyMap<string, readonly Misfit[]>;
  /** The bar that Tab comes to; `selected` is the one whose sheet is open. */
  readonly tabStop: string | null;
  readonly selected: string | null;
  readonly dimmed: ReadonlySet<string> | null;
}

/** One person's hours. Renders only when something of the row changed: a board has hundreds of bars. */
export const BoardRow = memo(function BoardRow(props: BoardRowProps) {
  const { board, person, row } = props;
  const status = statusWords(board, person, row);
  return (
    <div
      className="flex border-b border-hairline [contain:strict]" // else each move of the mouse is held against every bar
      data-row={person.id}
      style={{ height: rowHeightPx(row) }}
    >
      <div className="row-head w-36 shrink-0 border-r border-hairline bg-ground py-1.5 pr-2 print:w-28">
        <h3 className={cutIfLong(person.name, "text-body font-medium")} title={person.name}>
          {person.name}
        </h3>
        <p className={cutIfLong(status, "text-small text-ink-soft")}>{status}</p>
      </div>
      {props.isDrawn ? <Field {...props} /> : <FarField {...props} />}
    </div>
  );
});

/** What may be cut off costs a layer, and most names are short. */
const cutIfLong = (words: string, look: string) => `${look} ${words.length > 16 ? "truncate" : "whitespace-nowrap"}`;

function Field(props: BoardRowProps) {
  const { scale, person, row } = props;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is of forms
    <div
      role="group"
      aria-label={`Visits of ${person.name}`}
      className="relative grow"
      style={{ background: offHours(scale, person) }}
    >
      <RowLines row={row} />
      {row.bars.map((bar) => (
        <VisitBar key={bar.visit.id} bar={bar} {...props} />
      ))}
    </div>
  );
}

/** One line for the browser's own search and for who has the page read out; scrolled near, the bars take its place. */
function FarField({ board, row }: BoardRowProps) {
  const words = row.bars.map(({ visit }) => `${clockOf(board.days, visit.startMs)} ${visit.customer}`);
  return <p className="grow px-1 whitespace-nowrap text-small text-ink-soft">{words.join(" · ")}</p>;
}

/** The ground of a row: darker in the hours in which this person is not at work. */
function offHours(scale: TimeScale, { days }: BoardPerson): string {
  const stops = days.flatMap(({ shift }, d) => {
    const [from, to] = [d / days.length, (d + 1) / days.length].map(percent);
    if (!shift) return [`var(--off-hours) ${from} ${to}`];
    const [begins, ends] = [shift.fromMs, shift.toMs].map((ms) => percent(fractionOf(scale, ms)));
    return [`var(--off-hours) ${from} ${begins}`, `transparent ${begins} ${ends}`, `var(--off-hours) ${ends} ${to}`];
  });
  return `linear-gradient(to right, ${stops.join(", ")})`;
}

function statusWords(board: Board, person: BoardPerson, row: Row): string {
  if (board.days.length > 1) return row.bars.length === 1 ? "1 visit" : `${row.bars.length} visits`;
  const [day] = person.days;
  if (day!.ridesWith !== null)
    return `rides with ${board.people.find(({ id }) => id === day!.ridesWith)?.name ?? "somebody"}`;
  if (day!.shift === null) return day!.absent;
  return `${clockOf(board.days, day!.shift.fromMs)} to ${clockOf(board.days, day!.shift.toMs)}`;
}

function VisitBar({ bar, board, person, acrossPx, gaps, tabStop, selected, dimmed }: BoardRowProps & { bar: Bar }) {
  const { visit } = bar;
  const key = `${visit.id} ${person.id}`;
  const misfits = gaps.get(key) ?? [];
  const room = bar.width * acrossPx < ROOM_FOR_MARK_PX ? "none" : bar.width <= ROOM_FOR_BOTH ? "narrow" : undefined;
  return (
    <button
      type="button"
      data-bar={visit.id}
      data-state={visitMark(visit.state).state}
      data-gap={misfits.length === 0 ? undefined : misfits.some(isRefused) ? "refused" : "needs-you"}
      data-room={room}
      data-still={!isMovable(visit) || undefined}
      data-dimmed={dimmed?.has(visit.id) || undefined}
      tabIndex={tabStop === key ? 0 : -1}
      aria-current={selected === visit.id || undefined}
      aria-label={barWords(board, bar, misfits)}
      className="bar"
      style={{
        left: percent(bar.left),
        width: `max(${percent(bar.width)}, 6px)`,
        top: ROW_PAD_PX + bar.lane * LANE_PX,
        height: BAR_PX,
      }}
    >
      {room === undefined && bar.width > ROOM_FOR_TIME && `${clockOf(board.days, visit.startMs)} `}
      {room === undefined ? (
        <b>{visit.customer}</b>
      ) : (
        room === "narrow" && fitWords(visit.customer, bar.width * acrossPx - 5, 11)
      )}
    </button>
  );
}

/** A bar for who does not see it: when, who, what, promise, state, and what stands in the way. */
function barWords(board: Board, { visit, outside }: Bar, misfits: readonly Misfit[]): string {
  const clock = (ms: number) => clockOf(board.days, ms);
  const parts = [
    `${clock(visit.startMs)} to ${clock(endMs(visit))} ${visit.customer}, ${visit.city}`,
    visit.label,
    visitMark(visit.state).word,
    ...(visit.window ? [`promised ${clock(visit.window.fromMs)} to ${clock(visit.window.toMs)}`] : []),
    ...(outside ? [`${minutesWords(outside.minutes)} ${outside.late ? "after" : "before"} its promise`] : []),
    ...misfits.filter(({ kind }) => kind !== "window").map(({ words }) => words),
  ];
  return parts.join(". ").replaceAll("..", ".");
}
