import type { Row } from "@/lib/work/board/rows";

/* Heights in px, known without measuring: the ghosts and bands over the rows are placed by them. */

export const BAR_PX = 32;
export const LANE_PX = 36;
export const ROW_PAD_PX = 5;
export const RAILS_PX = 16;
export const RAIL_STEP_PX = 5;

export const rowHeightPx = ({ lanes }: Pick<Row, "lanes">) => ROW_PAD_PX + lanes * LANE_PX + RAILS_PX;

/** Top of each row and the whole height. */
export function rowTops(heights: readonly number[]): { tops: readonly number[]; total: number } {
  let total = 0;
  const tops = heights.map((height) => {
    total += height;
    return total - height;
  });
  return { tops, total };
}

/** Which row a height is in; the nearest one above and below the rows. */
export function rowAt(tops: readonly number[], y: number): number {
  let [low, high] = [0, tops.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (tops[middle]! <= y) low = middle;
    else high = middle - 1;
  }
  return low;
}
