"use client";

import { type RefObject, useEffect, useMemo, useState } from "react";
import { flushSync } from "react-dom";
import { rowAt } from "./row-heights";

/** First and last row to be drawn in full. */
export interface RowRange {
  readonly from: number;
  readonly to: number;
}

/** Drawn beyond what is seen, so that scrolling finds rows that are there already. */
const MARGIN_PX = 200;
/** Looked at anew after so much scrolling: about a row. */
const STEP_PX = 60;
/** Taken for the board's height, and for the width of its hours, until they are measured: the server does not know them. */
const FIRST_PX = 900;
const FIRST_ACROSS_PX = 745;

interface Strip {
  readonly topPx: number;
  readonly bottomPx: number;
}

/**
 * Which rows are near enough to be seen: a board of sixty people draws a third of its bars, and the browser has a third to lay
 * out, to paint and to search under the pointer. On paper all are drawn.
 */
export function useRowsInSight(
  scroller: RefObject<HTMLDivElement | null>,
  surface: RefObject<HTMLDivElement | null>,
  tops: readonly number[],
): { readonly drawn: RowRange; readonly acrossPx: number } {
  const [acrossPx, setAcrossPx] = useState(FIRST_ACROSS_PX);
  const [strip, setStrip] = useState<Strip>({ topPx: 0, bottomPx: FIRST_PX + MARGIN_PX });
  useEffect(() => {
    const box = scroller.current;
    if (!box) return;
    let heightPx = box.clientHeight;
    const look = () => {
      const topPx = Math.floor((box.scrollTop - MARGIN_PX) / STEP_PX) * STEP_PX;
      const bottomPx = Math.ceil((box.scrollTop + heightPx + MARGIN_PX) / STEP_PX) * STEP_PX;
      setStrip((now) => (now.topPx === topPx && now.bottomPx === bottomPx ? now : { topPx, bottomPx }));
    };
    const onPaper = () => flushSync(() => setStrip({ topPx: 0, bottomPx: Number.POSITIVE_INFINITY }));
    const gone = new AbortController();
    const { signal } = gone;
    // in the frame that scrolled, else it shows a row before its bars
    box.addEventListener("scroll", () => flushSync(look), { signal, passive: true });
    window.addEventListener("beforeprint", onPaper, { signal });
    window.addEventListener("afterprint", look, { signal });
    const size = new ResizeObserver(() => {
      heightPx = box.clientHeight; // not asked for in each frame: the answer may need a new layout
      box.toggleAttribute("data-scrolls-across", box.scrollWidth > box.clientWidth);
      setAcrossPx(surface.current?.clientWidth ?? FIRST_ACROSS_PX);
      look();
    });
    size.observe(box);
    return () => {
      gone.abort();
      size.disconnect();
    };
  }, [scroller, surface]);
  const drawn = useMemo(() => ({ from: rowAt(tops, strip.topPx), to: rowAt(tops, strip.bottomPx) }), [tops, strip]);
  return { drawn, acrossPx };
}
