"use client";

import { type PointerEvent as ReactPointerEvent, useCallback, useEffect, useRef, useState } from "react";
import type { BoardPerson, BoardVisit } from "@/lib/work/board/board";
import { clockOf } from "@/lib/work/board/board";
import type { BoardIndex } from "@/lib/work/board/board-index";
import { isRefused, judgeFit, type Misfit, type Place } from "@/lib/work/board/fit";
import { fractionOf, instantAtFraction, stepMinutesOf, type TimeScale } from "@/lib/work/board/time-scale";
import { BAR_PX, ROW_PAD_PX, rowAt } from "./row-heights";

/** What is carried over the board, by hand or by keys. */
export interface Carry {
  readonly visit: BoardVisit;
  /** On whose row it was taken up; null from the edge. */
  readonly fromPersonId: string | null;
  readonly by: "pointer" | "keys";
}

/** The field the bars lie on, as it stands now. */
export interface Field {
  readonly people: readonly BoardPerson[];
  readonly tops: readonly number[];
  readonly index: BoardIndex;
  readonly scale: TimeScale;
}

const BEGIN_PX = 5;
/** A finger that rests this long takes the bar up; one that moves first scrolls. */
const TOUCH_HOLD_MS = 280;
const EDGE_PX = 36;
const SCROLL_PX = 14;

/**
 * Carries a visit over the board. The ghost is moved by hand, outside React, once a frame: nothing but the place under
 * it is judged, so that hundreds of bars cost nothing.
 */
export function useCarry(field: Field, onDrop: (carry: Carry, place: Place) => void) {
  const [carry, setCarry] = useState<Carry | null>(null);
  const surface = useRef<HTMLDivElement>(null);
  const scroller = useRef<HTMLDivElement>(null);
  const ghost = useRef<HTMLDivElement>(null);
  const hint = useRef<HTMLDivElement>(null);
  const spoken = useRef<HTMLDivElement>(null);
  const place = useRef<Place | null>(null);
  const latest = useRef(field);
  latest.current = field;
  const drop = useRef(onDrop);
  drop.current = onDrop;
  const held = useRef<Carry | null>(null);
  const swallowClick = useRef(false);

  const end = useCallback(() => {
    held.current = null;
    place.current = null;
    setCarry(null);
  }, []);

  const show = useCallback((at: Place) => {
    const { people, tops, index, scale } = latest.current;
    const carried = held.current;
    const row = people.findIndex(({ id }) => id === at.personId);
    if (!carried || !ghost.current || row < 0) return;
    const before = place.current;
    place.current = at;
    const { style, dataset } = ghost.current;
    const left = fractionOf(scale, at.startMs);
    const width = fractionOf(scale, at.startMs + carried.visit.minutes * 60_000) - left;
    const wide = surface.current!.clientWidth;
    style.transform = `translate(${left * wide}px, ${tops[row]! + ROW_PAD_PX}px)`;
    style.width = `${Math.max(6, width * wide)}px`;
    style.height = `${BAR_PX}px`;
    style.visibility = "visible";
    if (before?.personId === at.personId && before.startMs === at.startMs) return;
    const misfits = judgeFit(index, carried.visit, at);
    const fit = misfits.length === 0 ? "fits" : misfits.some(isRefused) ? "refused" : "asks";
    if (dataset.fit !== fit) dataset.fit = fit;
    const words = placeWords(latest.current, at, misfits);
    if (hint.current) hint.current.textContent = words;
    if (carried.by === "keys" && spoken.current) spoken.current.textContent = words;
  }, []);

  const begin = useCallback(
    (next: Carry, at: Place | null) => {
      held.current = next;
      place.current = null;
      setCarry(next);
      // the ghost is there after the next paint
      if (at)
        requestAnimationFrame(() => {
          show(at);
          ghost.current?.scrollIntoView({ block: "nearest", inline: "nearest" });
        });
    },
    [show],
  );

  const finish = useCallback(() => {
    const [carried, at] = [held.current, place.current];
    end();
    if (carried && at) drop.current(carried, at);
  }, [end]);

  /** Put on what can be picked up; a press that does not move stays a press. */
  const onPointerDown = useCallback(
    (event: ReactPointerEvent<HTMLElement>, visit: BoardVisit, fromPersonId: string | null) => {
      if (event.button !== 0 || held.current) return;
      const [x0, y0] = [event.clientX, event.clientY];
      // the press is heard by the rows for all bars; where the bar was grasped is measured on the bar itself
      const grasped = (event.target as HTMLElement).closest("[data-bar]");
      const grabPx = grasped ? x0 - grasped.getBoundingClientRect().left : 12;
      const isTouch = event.pointerType === "touch";
      let [x, y] = [x0, y0];
      let isOn = false;
      let frame = 0;
      const gone = new AbortController();
      const { signal } = gone;
      const start = () => {
        isOn = true;
        swallowClick.current = true;
        begin({ visit, fromPersonId, by: "pointer" }, null);
        frame ||= requestAnimationFrame(move);
      };
      const hold = isTouch ? setTimeout(start, TOUCH_HOLD_MS) : undefined;
      const leave = () => {
        clearTimeout(hold);
        cancelAnimationFrame(frame);
        gone.abort();
        setTimeout(() => {
          swallowClick.current = false;
        });
      };
      const move = () => {
        frame = 0;
        const box = surface.current?.getBoundingClientRect();
        const seen = scroller.current?.getBoundingClientRect();
        if (!box || !seen || !isOn) return;
        const { people, tops, scale } = latest.current;
        const inside = x > seen.left && x < seen.right && y > seen.top && y < seen.bottom;
        if (!inside) {
          place.current = null;
          if (ghost.current) ghost.current.style.visibility = "hidden";
          if (hint.current) hint.current.textContent = "Let go here to leave it where it was.";
        } else {
          const person = people[rowAt(tops, y - box.top)]!;
          const startMs = instantAtFraction(scale, (x - grabPx - box.left) / box.width, stepMinutesOf(scale));
          show({ personId: person.id, startMs });
          if (scrollNear(scroller.current!, seen, x, y)) frame = requestAnimationFrame(move);
        }
      };
      document.addEventListener(
        "pointermove",
        (moved) => {
          if (moved.pointerId !== event.pointerId) return;
          [x, y] = [moved.clientX, moved.clientY];
          if (!isOn) {
            if (Math.hypot(x - x0, y - y0) < BEGIN_PX) return;
            if (isTouch) return leave();
            start();
          }
          frame ||= requestAnimationFrame(move);
        },
        { signal },
      );
      document.addEventListener("touchmove", (touch) => isOn && touch.preventDefault(), { signal, passive: false });
      // a finger that rests asks some systems for a menu
      document.addEventListener("contextmenu", (menu) => isTouch && menu.preventDefault(), { signal });
      document.addEventListener(
        "pointerup",
        () => {
          if (isOn) {
            move();
            finish();
          }
          leave();
        },
        { signal },
      );
      const letGo = () => {
        if (isOn) end();
        leave();
      };
      document.addEventListener("pointercancel", letGo, { signal });
      document.addEventListener("keydown", (key) => key.key === "Escape" && letGo(), { signal });
    },
    [begin, end, finish, show],
  );

  /** Arrow keys carry it, Enter sets it down, Escape leaves it. True when the key was used. */
  const onCarryKey = useCallback(
    (event: { key: string; shiftKey: boolean; preventDefault(): void }): boolean => {
      const [carried, at] = [held.current, place.current];
      if (carried?.by !== "keys") return false;
      const { people, scale } = latest.current;
      const stepMs = stepMinutesOf(scale) * 60_000 * (event.shiftKey ? 12 : 3);
      const row = people.findIndex(({ id }) => id === at?.personId);
      const to = (rowStep: number, ms: number) => {
        if (!at) return;
        const person = people[Math.min(people.length - 1, Math.max(0, row + rowStep))]!;
        show({ personId: person.id, startMs: at.startMs + ms });
        ghost.current?.scrollIntoView({ block: "nearest", inline: "nearest" });
      };
      switch (event.key) {
        case "ArrowLeft":
          to(0, -stepMs);
          break;
        case "ArrowRight":
          to(0, stepMs);
          break;
        case "ArrowUp":
          to(-1, 0);
          break;
        case "ArrowDown":
          to(1, 0);
          break;
        case "Enter":
        case " ":
          finish();
          break;
        case "Escape":
          end();
          break;
        default:
          return false;
      }
      event.preventDefault();
      return true;
    },
    [end, finish, show],
  );

  // Carried by keys, the board hears every key wherever the focus went.
  useEffect(() => {
    if (carry?.by !== "keys") return;
    const onKey = (event: KeyboardEvent) => {
      if (onCarryKey(event)) event.stopPropagation();
    };
    document.addEventListener("keydown", onKey, true);
    return () => document.removeEventListener("keydown", onKey, true);
  }, [carry, onCarryKey]);

  const isCarrying = () => held.current !== null;
  return { carry, isCarrying, begin, end, onPointerDown, surface, scroller, ghost, hint, spoken, swallowClick };
}

function placeWords({ index, people }: Field, at: Place, misfits: readonly Misfit[]): string {
  const name = people.find(({ id }) => id === at.personId)?.name ?? "";
  const where = `${clockOf(index.board.days, at.startMs)} ${name}`;
  return misfits.length === 0 ? `${where}: fits.` : `${where}: ${misfits.map(({ words }) => words).join(" ")}`;
}

/** Scrolls while something is carried near an edge; whether it did. */
function scrollNear(box: HTMLElement, seen: DOMRect, x: number, y: number): boolean {
  const along = x > seen.right - EDGE_PX ? SCROLL_PX : x < seen.left + EDGE_PX ? -SCROLL_PX : 0;
  const down = y > seen.bottom - EDGE_PX ? SCROLL_PX : y < seen.top + EDGE_PX ? -SCROLL_PX : 0;
  if (along === 0 && down === 0) return false;
  const [left, top] = [box.scrollLeft, box.scrollTop];
  box.scrollBy(along, down);
  return box.scrollLeft !== left || box.scrollTop !== top;
}
