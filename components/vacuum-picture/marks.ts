export type WantedLabel = { key: string; wantedY: number; heightPx: number; priority: number };
export type PlacedLabel = { key: string; y: number };

/**
 * Moves labels apart as little as possible, keeping their order, within [topPx, bottomPx]; `y` is each label's middle.
 * When they cannot all fit, the least important are left out.
 *
 * Least squares under "no overlap" is isotonic regression of each wanted place less the heights stacked above it,
 * solved by pooling neighbours that collide; clipping to the bounds afterwards stays optimal.
 */
export function placeLabels(wanted: readonly WantedLabel[], topPx: number, bottomPx: number): PlacedLabel[] {
  const labels = fitting(wanted, bottomPx - topPx).sort((one, other) => one.wantedY - other.wantedY);
  const stackedPx: number[] = [];
  let totalPx = 0;
  for (const label of labels) {
    stackedPx.push(totalPx + label.heightPx / 2);
    totalPx += label.heightPx;
  }
  const pools: { sum: number; count: number }[] = [];
  for (const [index, label] of labels.entries()) {
    pools.push({ sum: label.wantedY - (stackedPx[index] as number), count: 1 });
    while (pools.length > 1) {
      const last = pools[pools.length - 1] as { sum: number; count: number };
      const before = pools[pools.length - 2] as { sum: number; count: number };
      if (before.sum / before.count <= last.sum / last.count) break;
      pools.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  }
  const shifts = pools.flatMap((pool) => Array<number>(pool.count).fill(pool.sum / pool.count));
  return labels.map((label, index) => {
    const shift = Math.min(Math.max(shifts[index] as number, topPx), bottomPx - totalPx);
    return { key: label.key, y: shift + (stackedPx[index] as number) };
  });
}

function fitting(wanted: readonly WantedLabel[], roomPx: number): WantedLabel[] {
  const kept = [...wanted].sort((one, other) => other.priority - one.priority);
  while (kept.reduce((sum, label) => sum + label.heightPx, 0) > roomPx) kept.pop();
  return kept;
}

export type EventKind = "valve-closed" | "nitrogen-in" | "ballast" | "oil" | "note";
export type WantedMark = { key: string; x: number; widthPx: number };
export type PlacedMark = { key: string; x: number; lane: number | null; anchor: "start" | "end" };

/**
 * Gives each mark's words the lowest lane where they touch no other words and no mark's line runs through them; words
 * that would run out of the picture on the right stand left of their line. `lane` is null when no lane is left: the
 * mark stands without words. A mark's line runs from its lane down into the plot.
 */
export function placeMarks(
  wanted: readonly WantedMark[],
  bounds: { leftPx: number; rightPx: number },
  lanes: number,
): PlacedMark[] {
  const placed: (PlacedMark & { lane: number; from: number; to: number })[] = [];
  return [...wanted]
    .sort((one, other) => other.x - one.x)
    .map(({ key, x, widthPx }) => {
      const anchor = x + widthPx > bounds.rightPx && x - widthPx >= bounds.leftPx ? "end" : "start";
      const from = anchor === "start" ? x : x - widthPx;
      const to = from + widthPx;
      for (let lane = 0; lane < lanes; lane += 1) {
        const hindered = placed.some((other) => {
          const wordsMeet = other.lane === lane && from < other.to && other.from < to;
          const itsLineCrosses = other.x > from && other.x < to && other.lane >= lane;
          const ourLineCrosses = x > other.from && x < other.to && other.lane <= lane;
          return wordsMeet || itsLineCrosses || ourLineCrosses;
        });
        if (hindered) continue;
        placed.push({ key, x, lane, anchor, from, to });
        return { key, x, lane, anchor };
      }
      return { key, x, lane: null, anchor };
    });
}
