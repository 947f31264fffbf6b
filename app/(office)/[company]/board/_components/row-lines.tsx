"use client";

import type { Bar, Row, Way } from "@/lib/work/board/rows";
import { BAR_PX, LANE_PX, RAIL_STEP_PX, ROW_PAD_PX, rowHeightPx } from "./row-heights";

/** Units across the drawing, whatever its width in px. */
const ACROSS = 10_000;
const TICK_PX = 4;

const x = (fraction: number) => Math.round(fraction * ACROSS);

/** Behind a row's bars: the promise of each as a bracket, by how much it is missed, and the ways between them. */
export function RowLines({ row }: { row: Row }) {
  const { bars, ways } = row;
  const heightPx = rowHeightPx(row);
  const open = ways.filter(({ isTight }) => !isTight);
  const tight = ways.filter(({ isTight }) => isTight);
  const late = bars.filter(({ bracket, outside }) => bracket && outside);
  return (
    <svg className="row-lines" viewBox={`0 0 ${ACROSS} ${heightPx}`} preserveAspectRatio="none" aria-hidden="true">
      {open.length > 0 && <path data-way d={open.map(wayPath).join("")} />}
      {tight.length > 0 && <path data-way data-amiss d={tight.map(wayPath).join("")} />}
      <path d={bars.map((bar) => bracketPath(row, bar)).join("")} />
      {late.length > 0 && <path data-outside data-amiss d={late.map((bar) => outsidePath(row, bar)).join("")} />}
    </svg>
  );
}

function wayPath({ left, width, lane }: Way): string {
  return `M${x(left)} ${ROW_PAD_PX + lane * LANE_PX + BAR_PX / 2}H${x(left + width)}`;
}

/** The y of a bracket's line. */
const railPx = ({ lanes }: Row, level: number) => ROW_PAD_PX + lanes * LANE_PX + level * RAIL_STEP_PX + 2;

function bracketPath(row: Row, { bracket }: Bar): string {
  if (bracket === null) return "";
  const y = railPx(row, bracket.level);
  return `M${x(bracket.left)} ${y - TICK_PX}V${y}H${x(bracket.left + bracket.width)}V${y - TICK_PX}`;
}

function outsidePath(row: Row, { bracket, outside }: Bar): string {
  return `M${x(outside!.left)} ${railPx(row, bracket!.level)}H${x(outside!.left + outside!.width)}`;
}
