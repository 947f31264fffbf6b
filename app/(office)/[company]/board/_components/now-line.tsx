"use client";

import { useEffect, useState } from "react";
import { type Board, clockOf } from "@/lib/work/board/board";
import { fractionOf, type TimeScale } from "@/lib/work/board/time-scale";

const EVERY_MS = 30_000;

/** Where the day stands; moves by itself. The first picture is the server's clock, so that both draw the same. */
export function NowLine({ board, scale }: { board: Board; scale: TimeScale }) {
  const [nowMs, setNowMs] = useState(board.nowMs);
  useEffect(() => {
    setNowMs(Date.now());
    const timer = setInterval(() => setNowMs(Date.now()), EVERY_MS);
    return () => clearInterval(timer);
  }, []);
  if (board.today === null) return null;
  const seconds = (nowMs - board.days[board.today]!.originMs) / 1000;
  if (seconds < scale.fromS || seconds > scale.toS) return null;
  return (
    <div
      aria-hidden="true"
      className="pointer-events-none absolute inset-y-0 z-10 border-l-2 border-action"
      style={{ left: `${fractionOf(scale, nowMs) * 100}%` }}
    >
      <span className="absolute top-0 left-0 bg-action px-1 text-small text-on-action tabular-nums">
        {clockOf(board.days, nowMs)}
      </span>
    </div>
  );
}
