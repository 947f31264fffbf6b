/** Stands where there is nothing to wait for. */
export const AT_ONCE = Number.NEGATIVE_INFINITY;

/**
 * A cost as a function of a time, straight piece by piece: on (x[k], x[k + 1]] it is v[k] + m[k] (time - x[k]).
 * The first piece reaches down to the beginning of the day, the last one up to `end`; later is impossible.
 * Buffers are reused: the search builds millions of these.
 */
export class CostPieces {
  count = 0;
  end = 0;
  readonly x: Float64Array;
  readonly v: Float64Array;
  readonly m: Float64Array;
  /** The moment to start at, where waiting is best; AT_ONCE where it is best to start at once. */
  readonly startAt: Float64Array;

  constructor(readonly room: number) {
    this.x = new Float64Array(room);
    this.v = new Float64Array(room);
    this.m = new Float64Array(room);
    this.startAt = new Float64Array(room);
  }

  clear(): void {
    this.count = 0;
    this.end = Number.NEGATIVE_INFINITY;
  }

  /** A piece more than there is room for is left out: the cost is then rough, never the feasibility. */
  push(x: number, v: number, m: number, startAt = AT_ONCE): void {
    if (this.count === this.room) return;
    const k = this.count++;
    this.x[k] = x;
    this.v[k] = v;
    this.m[k] = m;
    this.startAt[k] = startAt;
  }

  /** Adds slope * max(0, time - fromS). */
  addAfter(fromS: number, slope: number): void {
    if (this.count === 0 || fromS >= this.end) return;
    const first = this.split(fromS);
    for (let k = first; k < this.count; k++) {
      this.v[k]! += slope * (this.x[k]! - fromS);
      this.m[k]! += slope;
    }
  }

  /** Adds slope * max(0, untilS - time). */
  addBefore(untilS: number, slope: number): void {
    const last = untilS >= this.end ? this.count : this.split(untilS);
    for (let k = 0; k < last; k++) {
      this.v[k]! += slope * (untilS - this.x[k]!);
      this.m[k]! -= slope;
    }
  }

  /** Makes a piece begin at this time and says which; times before the first piece count as its beginning. */
  private split(atS: number): number {
    let k = this.count;
    while (k > 0 && this.x[k - 1]! > atS) k--;
    if (k > 0 && this.x[k - 1] === atS) return k - 1;
    if (k === 0 || this.count === this.room) return k;
    for (let i = this.count; i > k; i--) {
      this.x[i] = this.x[i - 1]!;
      this.v[i] = this.v[i - 1]!;
      this.m[i] = this.m[i - 1]!;
    }
    this.count++;
    this.x[k] = atS;
    this.m[k] = this.m[k - 1]!;
    this.v[k] = this.v[k - 1]! + this.m[k]! * (atS - this.x[k - 1]!);
    return k;
  }
}

/** The cheaper of two costs at each time; where one is impossible, the other. */
export function takeLower(into: CostPieces, a: CostPieces, b: CostPieces): void {
  into.clear();
  if (a.count === 0 || b.count === 0) {
    copyPieces(into, a.count === 0 ? b : a);
    return;
  }
  into.end = Math.max(a.end, b.end);
  let i = 0;
  let j = 0;
  let from = Math.min(a.x[0]!, b.x[0]!);
  while (from < into.end) {
    const aOver = from >= a.end;
    const bOver = from >= b.end;
    const aNext = aOver ? into.end : i + 1 < a.count ? a.x[i + 1]! : a.end;
    const bNext = bOver ? into.end : j + 1 < b.count ? b.x[j + 1]! : b.end;
    const to = Math.min(aNext, bNext);
    if (aOver) into.push(from, b.v[j]! + b.m[j]! * (from - b.x[j]!), b.m[j]!);
    else if (bOver) into.push(from, a.v[i]! + a.m[i]! * (from - a.x[i]!), a.m[i]!);
    else pushLower(into, from, to, a, i, b, j);
    if (!aOver && aNext <= to && i + 1 < a.count) i++;
    if (!bOver && bNext <= to && j + 1 < b.count) j++;
    from = to;
  }
}

function pushLower(into: CostPieces, from: number, to: number, a: CostPieces, i: number, b: CostPieces, j: number) {
  const ma = a.m[i]!;
  const mb = b.m[j]!;
  const va = a.v[i]! + ma * (from - a.x[i]!);
  const vb = b.v[j]! + mb * (from - b.x[j]!);
  const ahead = va - vb;
  const aheadAtEnd = ahead + (ma - mb) * (to - from);
  const startsWithA = ahead < 0 || (ahead === 0 && aheadAtEnd <= 0);
  into.push(from, startsWithA ? va : vb, startsWithA ? ma : mb);
  if (ahead * aheadAtEnd >= 0) return;
  const crossing = from + ahead / (mb - ma);
  const shared = va + ma * (crossing - from);
  if (crossing > from && crossing < to) into.push(crossing, shared, startsWithA ? mb : ma);
}

function copyPieces(into: CostPieces, from: CostPieces): void {
  for (let k = 0; k < from.count; k++) into.push(from.x[k]!, from.v[k]!, from.m[k]!);
  into.end = from.end;
}

/**
 * From the cost of starting at a time to the cost of arriving at it: the start is the best moment at or after the
 * arrival within the windows [fromS[w], toS[w]], w from `first` up to `last`. The pieces come out last one first.
 */
export function allowWaiting(
  into: CostPieces,
  cost: CostPieces,
  fromS: Float64Array,
  toS: Float64Array,
  first: number,
  last: number,
  earliestS: number,
): void {
  into.clear();
  let best = Number.POSITIVE_INFINITY;
  let bestAt = AT_ONCE;
  let k = cost.count - 1;
  for (let w = last - 1; w >= first && k >= 0; w--) {
    const from = fromS[w]!;
    let to = Math.min(toS[w]!, cost.end);
    if (to < from) continue;
    if (into.count === 0) into.end = to;
    else into.push(to, best, 0, bestAt); // between two windows
    while (k > 0 && cost.x[k]! >= to) k--;
    for (;;) {
      const pieceFrom = cost.x[k]!;
      const left = Math.max(pieceFrom, from);
      const slope = cost.m[k]!;
      const atLeft = cost.v[k]! + slope * (left - pieceFrom);
      const atRight = cost.v[k]! + slope * (to - pieceFrom);
      if (slope < 0 || atLeft > best) {
        if (atRight < best) {
          best = atRight;
          bestAt = to;
        }
        pushEarlier(into, left, best, 0, bestAt);
      } else if (atRight <= best) {
        pushEarlier(into, left, atLeft, slope, AT_ONCE);
        best = atLeft;
        bestAt = left;
      } else {
        const crossing = left + (best - atLeft) / slope;
        pushEarlier(into, crossing, best, 0, bestAt);
        pushEarlier(into, left, atLeft, slope, AT_ONCE);
        best = atLeft;
        bestAt = left;
      }
      if (pieceFrom < from || k === 0) break;
      if (pieceFrom === from) {
        // the window's first moment belongs to the piece before
        const atFrom = cost.v[k - 1]! + cost.m[k - 1]! * (from - cost.x[k - 1]!);
        if (atFrom < best) {
          best = atFrom;
          bestAt = from;
        }
        break;
      }
      to = pieceFrom;
      k--;
    }
  }
  if (into.count === 0 && !Number.isFinite(best)) return;
  pushEarlier(into, earliestS, best, 0, bestAt);
}

/** Joins a flat piece to an equal one after it. */
function pushEarlier(into: CostPieces, x: number, v: number, m: number, startAt: number): void {
  const k = into.count - 1;
  if (k >= 0 && m === 0 && into.m[k] === 0 && into.v[k] === v && into.startAt[k] === startAt) into.x[k] = x;
  else into.push(x, v, m, startAt);
}
