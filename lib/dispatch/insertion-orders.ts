import type { Instance } from "./instance";
import type { RandomNumbers } from "./random-numbers";

/** The orders in which open jobs are put back, by chance and weight; an order in which all jobs are equal is left out. */
export class InsertionOrders {
  private readonly keys: Float64Array[] = [];

  constructor(instance: Instance) {
    const {
      jobCount: n,
      technicianCount: m,
      firstWindow,
      windowFromS,
      windowToS,
      travelS,
      place,
      placeCount,
    } = instance;
    const first = (j: number) => windowFromS[firstWindow[j]!] ?? 0;
    const last = (j: number) => windowToS[firstWindow[j + 1]! - 1] ?? 0;
    const wayS = (j: number) => travelS[(place[n] ?? 0) * placeCount + place[j]!]!;
    const able = (j: number) => instance.allowed.subarray(j * m, (j + 1) * m).reduce((sum, one) => sum + one, 0);
    this.add(n, 4, (j) => -instance.load[j]!);
    this.add(n, 2, (j) => -wayS(j));
    this.add(n, 1, wayS);
    this.add(n, 2, (j) => last(j) - first(j));
    this.add(n, 2, first);
    this.add(n, 2, (j) => -last(j));
    this.add(n, 3, (j) => -instance.openCost[j]!);
    this.add(n, 2, able);
    this.add(n, 2, (j) => -instance.serviceS[j]!);
  }

  private add(count: number, weight: number, keyOf: (job: number) => number): void {
    const key = Float64Array.from({ length: count }, (_, j) => keyOf(j));
    if (key.every((value) => value === key[0])) return;
    for (let i = 0; i < weight; i++) this.keys.push(key);
  }

  /** Puts the first `count` jobs of the list in the order of one draw; equal ones come by chance. */
  arrange(jobs: Int32Array, count: number, random: RandomNumbers): void {
    for (let i = count - 1; i > 0; i--) {
      const j = random.below(i + 1);
      const job = jobs[i]!;
      jobs[i] = jobs[j]!;
      jobs[j] = job;
    }
    const key = this.keys[random.below(this.keys.length + 4)];
    if (key === undefined) return;
    for (let i = 1; i < count; i++) {
      const job = jobs[i]!;
      let p = i - 1;
      while (p >= 0 && key[jobs[p]!]! > key[job]!) {
        jobs[p + 1] = jobs[p]!;
        p--;
      }
      jobs[p + 1] = job;
    }
  }
}
