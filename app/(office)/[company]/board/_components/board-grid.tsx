"use client";

import type { KeyboardEvent, ReactNode, PointerEvent as ReactPointerEvent, RefObject } from "react";
import type { Board, BoardPerson, BoardVisit } from "@/lib/work/board/board";
import type { BoardIndex } from "@/lib/work/board/board-index";
import type { Misfit } from "@/lib/work/board/fit";
import type { Row } from "@/lib/work/board/rows";
import { hourMarks, type TimeScale } from "@/lib/work/board/time-scale";
import { BoardRow } from "./board-row";
import { NowLine } from "./now-line";

export interface GridRow {
  readonly person: BoardPerson;
  readonly row: Row;
}

/** Names and hours: a day to read every hour, of several as much as shows who is where. */
const minWidthRem = (days: number) => 9 + days * (days === 1 ? 35 : days <= 3 ? 15 : 7.5);

/** People down, hours across. Arrow keys go from bar to bar, Enter opens one, M takes it up. */
export function BoardGrid(props: {
  board: Board;
  index: BoardIndex;
  scale: TimeScale;
  rows: readonly GridRow[];
  gaps: ReadonlyMap<string, readonly Misfit[]>;
  selected: string | null;
  tabStop: string | null;
  dimmed: ReadonlySet<string> | null;
  scroller: RefObject<HTMLDivElement | null>;
  surface: RefObject<HTMLDivElement | null>;
  onPointerDown: (event: ReactPointerEvent<HTMLElement>, visit: BoardVisit, personId: string) => void;
  onSelect: (id: string) => void;
  onFocusBar: (key: string) => void;
  onCarry: (visit: BoardVisit, personId: string) => void;
  children: ReactNode;
}) {
  const { board, index, scale, rows } = props;
  const barOf = (target: EventTarget) => (target as HTMLElement).closest<HTMLElement>("[data-bar]");
  const visitOf = (bar: HTMLElement) => index.visit.get(bar.dataset.bar!);

  function onKeyDown(event: KeyboardEvent<HTMLElement>) {
    const bar = barOf(event.target);
    const visit = bar && visitOf(bar);
    if (!bar || !visit) return;
    if (event.key.toLowerCase() === "m" && !event.ctrlKey && !event.metaKey) props.onCarry(visit, bar.dataset.person!);
    else if (!event.key.startsWith("Arrow")) return;
    else neighbourOf(bar, rows, event.key)?.focus();
    event.preventDefault();
  }

  return (
    <div
      ref={props.scroller}
      className="max-h-[calc(100dvh-14rem)] overflow-auto border-y border-hairline print:max-h-none print:overflow-visible"
    >
      <div className="relative" style={{ minWidth: `${minWidthRem(scale.days.length)}rem` }}>
        <Hours scale={scale} />
        {/* biome-ignore lint/a11y/noStaticElementInteractions: what is pressed are the buttons inside; the press is heard once for all */}
        <div
          className="relative"
          onKeyDown={onKeyDown}
          onClick={(event) => {
            const bar = barOf(event.target);
            if (bar) props.onSelect(bar.dataset.bar!);
          }}
          onFocus={(event) => {
            const bar = barOf(event.target);
            if (bar) props.onFocusBar(`${bar.dataset.bar} ${bar.dataset.person}`);
          }}
          onPointerDown={(event) => {
            const bar = barOf(event.target);
            const visit = bar && visitOf(bar);
            if (bar && visit) props.onPointerDown(event, visit, bar.dataset.person!);
          }}
        >
          <div className="pointer-events-none absolute inset-y-0 right-0 left-36 print:left-28">
            <HourLines scale={scale} />
          </div>
          {rows.map(({ person, row }) => (
            <BoardRow
              key={person.id}
              board={board}
              scale={scale}
              person={person}
              row={row}
              gaps={props.gaps}
              tabStop={ofRow(props.tabStop, row)}
              selected={ofRow(props.selected, row)}
              dimmed={props.dimmed}
            />
          ))}
          <div ref={props.surface} className="pointer-events-none absolute inset-y-0 right-0 left-36 print:left-28">
            <NowLine board={board} scale={scale} />
            {props.children}
          </div>
        </div>
      </div>
    </div>
  );
}

/** A row is told of a focus or a choice only where it is its own, so that the others need not be drawn again. */
function ofRow(key: string | null, { bars }: Row): string | null {
  return key !== null && bars.some(({ visit }) => key.startsWith(visit.id)) ? key : null;
}

function Hours({ scale }: { scale: TimeScale }) {
  const { days } = scale;
  return (
    <div className="sticky top-0 z-20 flex border-b border-hairline bg-ground" aria-hidden="true">
      <div className="sticky left-0 z-10 w-36 shrink-0 bg-ground print:w-28" />
      <div className={days.length > 1 ? "relative h-11 grow" : "relative h-6 grow"}>
        {days.length > 1 &&
          days.map(({ day, words }, d) => (
            <span
              key={day}
              className="absolute top-0 pl-1 font-semibold"
              style={{ left: `${(d / days.length) * 100}%` }}
            >
              {words}
            </span>
          ))}
        {hourMarks(scale)
          .filter(({ isMidnight, fraction }) => !isMidnight && fraction > 0.03) // the edge would cut it
          .map(({ fraction, words }) => (
            <span
              key={fraction}
              className="absolute bottom-0 -translate-x-1/2 text-small text-ink-soft tabular-nums"
              style={{ left: `${fraction * 100}%` }}
            >
              {words}
            </span>
          ))}
      </div>
    </div>
  );
}

function HourLines({ scale }: { scale: TimeScale }) {
  return hourMarks(scale).map(({ fraction, isMidnight }) => (
    <span
      key={`${fraction} ${isMidnight}`}
      aria-hidden="true"
      className={`absolute inset-y-0 border-l ${isMidnight ? "border-edge" : "border-hairline"}`}
      style={{ left: `${fraction * 100}%` }}
    />
  ));
}

/** The bar an arrow leads to: along the row, or in the next row that has one, nearest in time. */
function neighbourOf(bar: HTMLElement, rows: readonly GridRow[], key: string): HTMLElement | null {
  const at = rows.findIndex(({ person }) => person.id === bar.dataset.person);
  const here = rows[at]?.row.bars.findIndex(({ visit }) => visit.id === bar.dataset.bar) ?? -1;
  const focusOn = (row: number, n: number) => {
    const found = rows[row]?.row.bars[n];
    return found ? document.getElementById(`bar-${found.visit.id}-${rows[row]!.person.id}`) : null;
  };
  if (key === "ArrowLeft") return focusOn(at, here - 1);
  if (key === "ArrowRight") return focusOn(at, here + 1);
  const step = key === "ArrowUp" ? -1 : 1;
  const left = rows[at]!.row.bars[here]!.left;
  for (let row = at + step; row >= 0 && row < rows.length; row += step) {
    const { bars } = rows[row]!.row;
    if (bars.length === 0) continue;
    const nearest = bars.reduce(
      (best, each, n) => (Math.abs(each.left - left) < Math.abs(bars[best]!.left - left) ? n : best),
      0,
    );
    return focusOn(row, nearest);
  }
  return null;
}
