"use client";

import { memo } from "react";
import { classNames } from "@/components/ui/class-names";
import { StateShape } from "@/components/ui/state-mark";
import { visitMark } from "@/components/work/marks";
import { type Board, type BoardPerson, clockOf, endMs, isMovable, minutesWords } from "@/lib/work/board/board";
import { isRefused, type Misfit } from "@/lib/work/board/fit";
import type { Bar, Row } from "@/lib/work/board/rows";
import { fractionOf, type TimeScale } from "@/lib/work/board/time-scale";
import { BAR_PX, LANE_PX, RAIL_STEP_PX, ROW_PAD_PX, rowHeightPx } from "./row-heights";

/** Shares of the board's width from which a bar has room for a mark, for mark and name side by side, for the time too. */
const ROOM_FOR_MARK = 0.012;
const ROOM_FOR_BOTH = 0.1;
const ROOM_FOR_TIME = 0.13;

const percent = (fraction: number) => `${(fraction * 100).toFixed(3)}%`;

export interface BoardRowProps {
  readonly board: Board;
  readonly scale: TimeScale;
  readonly person: BoardPerson;
  readonly row: Row;
  readonly gaps: ReadonlyMap<string, readonly Misfit[]>;
  /** The bar that Tab comes to; `selected` is the one whose sheet is open. */
  readonly tabStop: string | null;
  readonly selected: string | null;
  readonly dimmed: ReadonlySet<string> | null;
}

/** One person's hours. Renders only when something of the row changed: a board has hundreds of bars. */
export const BoardRow = memo(function BoardRow(props: BoardRowProps) {
  const { board, scale, person, row } = props;
  return (
    <div
      className="flex border-b border-hairline [contain:layout_paint_style]" // else each move of the mouse is held against every bar
      data-row={person.id}
      style={{ height: rowHeightPx(row) }}
    >
      <div className="sticky left-0 z-10 w-36 shrink-0 border-r border-hairline bg-ground py-1.5 pr-2 print:w-28">
        <h3 className="truncate text-body font-medium" title={person.name}>
          {person.name}
        </h3>
        <p className="truncate text-small text-ink-soft">{statusWords(board, person, row)}</p>
      </div>
      <div className="relative grow">
        {person.days.map(({ shift }, d) => (
          <OffHours key={board.days[d]!.day} scale={scale} dayIndex={d} shift={shift} />
        ))}
        {row.ways.map((way) => (
          <span
            key={`${way.left} ${way.lane}`}
            aria-hidden="true"
            className={classNames("absolute border-t-2 border-dotted", way.isTight ? "border-refused" : "border-edge")}
            style={{
              left: percent(way.left),
              width: percent(way.width),
              top: ROW_PAD_PX + way.lane * LANE_PX + BAR_PX / 2,
            }}
          />
        ))}
        <ul>
          {row.bars.map((bar) => (
            <VisitBar key={bar.visit.id} bar={bar} {...props} />
          ))}
        </ul>
      </div>
    </div>
  );
});

/** The hours in which this person is not at work, hatched. */
function OffHours(props: { scale: TimeScale; dayIndex: number; shift: BoardPerson["days"][number]["shift"] }) {
  const { scale, dayIndex, shift } = props;
  const [from, to] = [dayIndex / scale.days.length, (dayIndex + 1) / scale.days.length];
  const pieces = shift
    ? [
        [from, fractionOf(scale, shift.fromMs)],
        [fractionOf(scale, shift.toMs), to],
      ]
    : [[from, to]];
  return pieces.map(([left, right]) =>
    right! - left! > 0.0005 ? (
      <span
        key={left}
        aria-hidden="true"
        className="off-hours absolute inset-y-0"
        style={{ left: percent(left!), width: percent(right! - left!) }}
      />
    ) : null,
  );
}

function statusWords(board: Board, person: BoardPerson, row: Row): string {
  if (board.days.length > 1) return row.bars.length === 1 ? "1 visit" : `${row.bars.length} visits`;
  const [day] = person.days;
  if (day!.ridesWith !== null)
    return `rides with ${board.people.find(({ id }) => id === day!.ridesWith)?.name ?? "somebody"}`;
  if (day!.shift === null) return day!.absent;
  return `${clockOf(board.days, day!.shift.fromMs)} to ${clockOf(board.days, day!.shift.toMs)}`;
}

function VisitBar({ bar, board, person, gaps, tabStop, selected, dimmed, row }: BoardRowProps & { bar: Bar }) {
  const { visit, bracket, outside } = bar;
  const key = `${visit.id} ${person.id}`;
  const misfits = gaps.get(key) ?? [];
  const mark = visitMark(visit.state);
  const isNarrow = bar.width <= ROOM_FOR_BOTH; // the name gets the bar's whole width below the marks
  const barTop = ROW_PAD_PX + bar.lane * LANE_PX;
  const railTop = ROW_PAD_PX + row.lanes * LANE_PX + (bracket?.level ?? 0) * RAIL_STEP_PX - 2;
  return (
    <li>
      {bracket && (
        <span
          aria-hidden="true"
          className="bracket absolute border-x-2 border-b-2 border-edge"
          style={{ left: percent(bracket.left), width: percent(bracket.width), top: railTop, height: 5 }}
        />
      )}
      {bracket && outside && (
        <span
          aria-hidden="true"
          className="absolute border-b-3 border-refused"
          style={{ left: percent(outside.left), width: percent(outside.width), top: railTop, height: 5 }}
        />
      )}
      <button
        type="button"
        id={`bar-${visit.id}-${person.id}`}
        data-bar={visit.id}
        data-person={person.id}
        tabIndex={tabStop === key ? 0 : -1}
        aria-current={selected === visit.id || undefined}
        aria-label={barWords(board, bar, misfits)}
        className={classNames(
          "visit-bar absolute flex overflow-hidden rounded-control border bg-raised text-left leading-none text-ink",
          isNarrow ? "flex-col justify-center gap-0.5 px-0.5 text-[0.6875rem]" : "items-center gap-1 px-1 text-small",
          misfits.length > 0 ? "border-refused" : "border-edge",
          isMovable(visit) ? "cursor-grab" : "cursor-default bg-sunk",
          dimmed?.has(visit.id) && "opacity-35",
        )}
        style={{ left: percent(bar.left), width: `max(${percent(bar.width)}, 6px)`, top: barTop, height: BAR_PX }}
      >
        {bar.width > ROOM_FOR_MARK && (
          <span className="flex shrink-0 items-center gap-1">
            <StateShape state={mark.state} className="translate-y-0" />
            {misfits.length > 0 && (
              <StateShape state={misfits.some(isRefused) ? "refused" : "needs-you"} className="translate-y-0" />
            )}
          </span>
        )}
        <span className={isNarrow ? "whitespace-nowrap" : "truncate"}>
          {bar.width > ROOM_FOR_TIME && <span className="tabular-nums">{clockOf(board.days, visit.startMs)} </span>}
          <span className="font-semibold">{visit.customer}</span>
        </span>
      </button>
    </li>
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
