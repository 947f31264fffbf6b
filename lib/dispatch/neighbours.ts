import type { Instance } from "./instance";

const NEIGHBOURS_KEPT = 150;

/** For each job the jobs nearest to it, itself first, by the way there and back. */
export function listNeighbours(instance: Instance): { readonly list: Int32Array; readonly count: number } {
  const { jobCount: n, place, placeCount, travelS } = instance;
  const count = Math.min(n, NEIGHBOURS_KEPT);
  const list = new Int32Array(n * count);
  const longestS = travelS.reduce((longest, seconds) => Math.max(longest, seconds), 1);
  const keys = new Float64Array(n);
  for (let a = 0; a < n; a++) {
    for (let b = 0; b < n; b++) {
      const wayS = travelS[place[a]! * placeCount + place[b]!]! + travelS[place[b]! * placeCount + place[a]!]!;
      const rank = a === b ? 0 : 1 + Math.floor((wayS / longestS) * 1e6);
      keys[b] = rank * n + b; // one number carries order and job, which sorts fast
    }
    keys.sort();
    for (let k = 0; k < count; k++) list[a * count + k] = keys[k]! % n;
  }
  return { list, count };
}
