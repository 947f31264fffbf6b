"use client";

import {
  type KeyboardEvent,
  memo,
  type ReactNode,
  type PointerEvent as ReactPointerEvent,
  type RefObject,
} from "react";
import type { Board, BoardPerson, BoardVisit } from "@/lib/work/board/board";
import type { BoardIndex } from "@/lib/work/board/board-index";
import type { Misfit } from "@/lib/work/board/fit";
import type { Row } from "@/lib/work/board/rows";
import { hourMarks, type TimeScale } from "@/lib/work/board/time-scale";
import { BoardRow } from "./board-row";
import { NowLine } from "./now-line";
import { type RowRange, useRowsInSight } from "./use-rows-in-sight";

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
  tops: readonly number[];
  /** Whose row stays drawn wherever it is scrolled to: what a finger holds must not go away under it. */
  heldRow: string | null;
  gaps: ReadonlyMap<string, readonly Misfit[]>;
  selected: string | null;
  tabStop: string | null;
  dimmed: ReadonlySet<string> | null;
  scroller: RefObject<HTMLDivElement | null>;
  surface: RefObject<HTMLDivElement | null>;
  onPointerDown: (event: ReactPointerEvent<HTMLElement>, visit: BoardVisit, personId: string) => void;
  onSelect: (id: string) => void;
  onFocusBar: (key: string) => void;
  /** The words of the bar under the mouse; null when it left. */
  onHover: (words: string | null) => void;
  /** Draws the row of a bar, if it has to be, and gives the bar the focus. */
  onGoTo: (key: string) => void;
  onCarry: (visit: BoardVisit, personId: string) => void;
  /** What lies over the rows, told which of them are drawn. */
  over: (drawn: RowRange) => ReactNode;
}) {
  const { board, index, scale, rows } = props;
  const { drawn, acrossPx } = useRowsInSight(props.scroller, props.surface, props.tops);
  const selected = props.selected === null ? null : index.visit.get(props.selected);
  const barOf = (target: EventTarget) => (target as HTMLElement).closest<HTMLElement>("[data-bar]");
  const visitOf = (bar: HTMLElement) => index.visit.get(bar.dataset.bar!);
  const personOf = (bar: HTMLElement) => bar.closest<HTMLElement>("[data-row]")!.dataset.row!;

  function onKeyDown(event: KeyboardEvent<HTMLElement>) {
    const bar = barOf(event.target);
    const visit = bar && visitOf(bar);
    if (!bar || !visit) return;
    if (event.key.toLowerCase() === "m" && !event.ctrlKey && !event.metaKey) props.onCarry(visit, personOf(bar));
    else if (!event.key.startsWith("Arrow")) return;
    else {
      const next = neighbourOf(visit.id, personOf(bar), rows, event.key);
      if (next) props.onGoTo(next);
    }
    event.preventDefault();
  }

  return (
    <div
      ref={props.scroller}
      className="max-h-[calc(100dvh-14rem)] scroll-pt-12 scroll-pl-36 overflow-auto border-y border-hairline print:max-h-none print:overflow-visible"
    >
      <div className="relative" style={{ minWidth: `${minWidthRem(scale.days.length)}rem` }}>
        <Hours scale={scale} />
        {/* biome-ignore lint/a11y/noStaticElementInteractions: what is pressed are the buttons inside; the press is heard once for all */}
        <div
          className="board-rows relative"
          onKeyDown={onKeyDown}
          onClick={(event) => {
            const bar = barOf(event.target);
            if (bar) props.onSelect(bar.dataset.bar!);
          }}
          onFocus={(event) => {
            const bar = barOf(event.target);
            if (bar) props.onFocusBar(barKey(bar.dataset.bar!, personOf(bar)));
          }}
          onPointerOver={(event) => props.onHover(barOf(event.target)?.getAttribute("aria-label") ?? null)}
          onPointerLeave={() => props.onHover(null)}
          onPointerDown={(event) => {
            const bar = barOf(event.target);
            const visit = bar && visitOf(bar);
            if (bar && visit) props.onPointerDown(event, visit, personOf(bar));
          }}
        >
          <div className="pointer-events-none absolute inset-y-0 right-0 left-36 print:left-28">
            <HourLines scale={scale} />
          </div>
          {rows.map(({ person, row }, n) => {
            const tabStop = props.tabStop?.endsWith(person.id) ? props.tabStop : null; // told only to its own row
            const isNear = n >= drawn.from && n <= drawn.to;
            return (
              <BoardRow
                key={person.id}
                board={board}
                scale={scale}
                person={person}
                row={row}
                acrossPx={acrossPx}
                isDrawn={isNear || tabStop !== null || person.id === props.heldRow}
                gaps={props.gaps}
                tabStop={tabStop}
                selected={selected?.people.includes(person.id) ? selected.id : null}
                dimmed={props.dimmed}
              />
            );
          })}
          <div ref={props.surface} className="pointer-events-none absolute inset-y-0 right-0 left-36 print:left-28">
            <NowLine board={board} scale={scale} />
            {props.over(drawn)}
          </div>
        </div>
      </div>
    </div>
  );
}

const Hours = memo(function Hours({ scale }: { scale: TimeScale }) {
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
});

const HourLines = memo(function HourLines({ scale }: { scale: TimeScale }) {
  return hourMarks(scale).map(({ fraction, isMidnight }) => (
    <span
      key={`${fraction} ${isMidnight}`}
      aria-hidden="true"
      className={`absolute inset-y-0 border-l ${isMidnight ? "border-edge" : "border-hairline"}`}
      style={{ left: `${fraction * 100}%` }}
    />
  ));
});

/** A bar's key, of its visit and on whose row it lies. */
export const barKey = (visitId: string, personId: string) => `${visitId} ${personId}`;

/** The bar an arrow leads to: along the row, or in the next row that has one, nearest in time. */
function neighbourOf(visitId: string, personId: string, rows: readonly GridRow[], key: string): string | null {
  const at = rows.findIndex(({ person }) => person.id === personId);
  const here = rows[at]?.row.bars.findIndex(({ visit }) => visit.id === visitId) ?? -1;
  const keyOf = (row: number, n: number) => {
    const found = rows[row]?.row.bars[n];
    return found ? barKey(found.visit.id, rows[row]!.person.id) : null;
  };
  if (key === "ArrowLeft") return keyOf(at, here - 1);
  if (key === "ArrowRight") return keyOf(at, here + 1);
  const step = key === "ArrowUp" ? -1 : 1;
  const left = rows[at]!.row.bars[here]!.left;
  for (let row = at + step; row >= 0 && row < rows.length; row += step) {
    const { bars } = rows[row]!.row;
    if (bars.length === 0) continue;
    const nearest = bars.reduce(
      (best, each, n) => (Math.abs(each.left - left) < Math.abs(bars[best]!.left - left) ? n : best),
      0,
    );
    return keyOf(row, nearest);
  }
  return null;
}
