import { Insertions } from "./insertion";
import { InsertionOrders } from "./insertion-orders";
import type { Instance } from "./instance";
import { listNeighbours } from "./neighbours";
import { RandomNumbers } from "./random-numbers";
import { Routes } from "./routes";

const NEVER = Number.POSITIVE_INFINITY;
/** How many jobs one step takes out on average, and how long a piece of one route may be. */
const AVERAGE_REMOVED = 10;
const LONGEST_STRING = 10;
const SPLIT_SHARE = 0.5;
const SPLIT_GROWS = 0.01;
/** How often a whole route goes, where routes are longer than any string. */
const WHOLE_ROUTE_SHARE = 0.02;
/** How often a place that looks best is passed over. */
const BLINK = 0.01;
/** Up to so many jobs the first plan weighs all of them against each other; beyond, that would eat the time. */
const MOST_JOBS_WEIGHED = 300;
/** How much of what a job costs when left open counts beside what its second best place costs more. */
const OPEN_COST_SHARE = 0.2;

/**
 * Ruin and recreate: take strings of neighbouring stops out of routes near each other, put the open jobs back one by
 * one where they fit best, now and then not looking; keep the outcome if it is better, or not much worse while
 * the temperature is high.
 * @source J. Christiaens, G. Vanden Berghe, "Slack induction by string removals for vehicle routing problems",
 * Transportation Science 54(2), 2020: string lengths and counts (eqs. 5-9), split strings, blinks, orders, cooling
 */
export class Search {
  readonly routes: Routes;
  readonly insertions: Insertions;
  cost = 0;
  bestCost = NEVER;
  steps = 0;
  /** Stops of each route in turn, each closed by -1. */
  readonly best: Int32Array;
  private readonly random: RandomNumbers;
  private readonly orders: InsertionOrders;
  private readonly neighbours: { readonly list: Int32Array; readonly count: number };
  private readonly able: Int32Array;
  private readonly firstAble: Int32Array;
  private readonly open: Int32Array;
  private openCount = 0;
  private readonly absent: Int32Array;
  private readonly touched: Int32Array;
  private touchedCount = 0;
  private readonly isTouched: Uint8Array;
  private readonly savedStops: Int32Array;
  private readonly savedLength: Int32Array;
  private readonly savedVersion: Float64Array;
  private readonly seenEmpty: Float64Array;
  private looks = 0;
  /** Cost of the touched routes before this step, taken away. */
  private costBefore = 0;

  constructor(
    readonly instance: Instance,
    seed: number,
  ) {
    const { jobCount: n, technicianCount: m } = instance;
    this.routes = new Routes(instance);
    this.insertions = new Insertions(instance, this.routes);
    this.random = new RandomNumbers(seed);
    this.orders = new InsertionOrders(instance);
    this.neighbours = listNeighbours(instance);
    this.best = new Int32Array(n + m);
    this.open = Int32Array.from({ length: n }, (_, j) => j);
    this.openCount = n;
    this.absent = new Int32Array(n);
    this.touched = new Int32Array(m);
    this.isTouched = new Uint8Array(m);
    this.savedStops = new Int32Array(n * m);
    this.savedLength = new Int32Array(m);
    this.savedVersion = new Float64Array(m);
    this.seenEmpty = new Float64Array(m);
    this.firstAble = new Int32Array(n + 1);
    const able: number[] = [];
    for (let j = 0; j < n; j++) {
      for (let r = 0; r < m; r++) if (instance.allowed[j * m + r] === 1) able.push(r);
      this.firstAble[j + 1] = able.length;
    }
    this.able = Int32Array.from(able);
    this.cost = this.costOfAll();
    this.keepBest();
  }

  /** Starts from what was promised, as far as it still holds, and puts the other jobs in. */
  begin(): void {
    this.keepPromises();
    if (this.instance.jobCount <= MOST_JOBS_WEIGHED) this.putInByRegret();
    else {
      this.absent.set(this.open.subarray(0, this.openCount));
      this.orders.arrange(this.absent, this.openCount, this.random);
      // what must be planned first, while there is room
      this.absent.subarray(0, this.openCount).sort((a, b) => this.instance.openCost[b]! - this.instance.openCost[a]!);
      this.putBack(this.openCount);
    }
    this.touchedCount = 0;
    this.costBefore = 0;
    this.isTouched.fill(0);
    this.gatherOpen();
    this.cost = this.costOfAll();
    if (this.cost < this.bestCost) this.keepBest();
  }

  private keepPromises(): void {
    const { problem, allowed, technicianCount: m } = this.instance;
    const numberOf = new Map(problem.technicians.map(({ id }, r) => [id, r]));
    const promised = problem.jobs
      .map((job, j) => ({ j, start: job.promised?.start ?? NEVER, r: numberOf.get(job.promised?.technician ?? "") }))
      .filter(({ r }) => r !== undefined)
      .sort((a, b) => a.start - b.start);
    for (const { j, r } of promised) {
      if (r === undefined || allowed[j * m + r] === 0) continue;
      this.insertions.find(j, r);
      if (this.insertions.cost < NEVER) this.routes.insert(r, this.insertions.position, j);
    }
    this.gatherOpen();
  }

  /** Takes over a plan found elsewhere. */
  adopt(plan: Int32Array): void {
    const { jobCount, technicianCount } = this.instance;
    this.routes.routeOf.fill(-1);
    let at = 0;
    for (let r = 0; r < technicianCount; r++) {
      const from = at;
      while (plan[at]! >= 0 && at < jobCount + technicianCount) at++;
      this.routes.restore(r, plan, from, at - from, 0);
      this.routes.renew(r);
      at++;
    }
    this.gatherOpen();
    this.cost = this.costOfAll();
    if (this.cost < this.bestCost) this.keepBest();
  }

  private gatherOpen(): void {
    this.openCount = 0;
    for (let j = 0; j < this.instance.jobCount; j++) if (this.routes.routeOf[j] === -1) this.open[this.openCount++] = j;
  }

  private costOfAll(): number {
    let cost = 0;
    for (let r = 0; r < this.instance.technicianCount; r++) cost += this.routes.cost(r);
    for (let i = 0; i < this.openCount; i++) cost += this.instance.openCost[this.open[i]!]!;
    return cost;
  }

  private keepBest(): void {
    this.bestCost = this.cost;
    writeOrder(this.routes, this.best);
  }

  /** A cost typical for one visit, to scale temperatures by. */
  costPerVisit(): number {
    let cost = 0;
    for (let r = 0; r < this.instance.technicianCount; r++)
      if (this.routes.length[r]! > 0) cost += this.routes.cost(r) - this.instance.technicianCost;
    return cost / Math.max(1, this.instance.jobCount - this.openCount);
  }

  /** One ruin and recreate. */
  step(temperature: number): void {
    this.steps++;
    const { routes, instance } = this;
    let changed = 0;
    for (let i = 0; i < this.openCount; i++) changed -= instance.openCost[this.open[i]!]!;
    let absentCount = this.openCount;
    this.absent.set(this.open.subarray(0, absentCount));
    absentCount = this.ruin(absentCount);
    this.orders.arrange(this.absent, absentCount, this.random);
    this.putBack(absentCount);
    let stillOpen = 0;
    for (let i = 0; i < absentCount; i++) {
      const job = this.absent[i]!;
      if (routes.routeOf[job] !== -1) continue;
      changed += instance.openCost[job]!;
      this.absent[stillOpen++] = job;
    }
    for (let i = 0; i < this.touchedCount; i++) changed += routes.cost(this.touched[i]!);
    changed += this.costBefore;
    const limit = temperature > 0 ? -temperature * Math.log(this.random.fraction()) : 0;
    if (changed < limit) {
      this.cost += changed;
      this.open.set(this.absent.subarray(0, stillOpen));
      this.openCount = stillOpen;
      for (let i = 0; i < this.touchedCount; i++) this.isTouched[this.touched[i]!] = 0;
      if (this.cost < this.bestCost - 1e-7) this.keepBest();
    } else this.undo();
    this.touchedCount = 0;
    this.costBefore = 0;
  }

  private touch(r: number): void {
    if (this.isTouched[r] === 1) return;
    const { routes } = this;
    this.isTouched[r] = 1;
    this.touched[this.touchedCount++] = r;
    const base = r * routes.room;
    const length = routes.length[r]!;
    for (let p = 0; p < length; p++) this.savedStops[base + p] = routes.stops[base + p]!;
    this.savedLength[r] = length;
    this.savedVersion[r] = routes.version[r]!;
    this.costBefore -= routes.cost(r);
  }

  private undo(): void {
    const { routes } = this;
    for (let i = 0; i < this.touchedCount; i++) {
      const base = this.touched[i]! * routes.room;
      const length = routes.length[this.touched[i]!]!;
      for (let p = 0; p < length; p++) routes.routeOf[routes.stops[base + p]!] = -1;
    }
    for (let i = 0; i < this.touchedCount; i++) {
      const r = this.touched[i]!;
      this.isTouched[r] = 0;
      if (routes.version[r] === this.savedVersion[r]) {
        const base = r * routes.room;
        for (let p = 0; p < routes.length[r]!; p++) routes.routeOf[routes.stops[base + p]!] = r;
      } else routes.restore(r, this.savedStops, r * routes.room, this.savedLength[r]!, this.savedVersion[r]!);
    }
  }

  private ruin(absentCount: number): number {
    const { instance, routes, random, neighbours } = this;
    if (instance.jobCount === 0) return absentCount;
    let [used, assigned] = [0, 0];
    for (let r = 0; r < instance.technicianCount; r++) {
      if (routes.length[r]! > 0) used++;
      assigned += routes.length[r]!;
    }
    if (used === 0) return absentCount;
    const longest = Math.min(LONGEST_STRING, assigned / used);
    const mostStrings = (4 * AVERAGE_REMOVED) / (1 + longest) - 1;
    const strings = Math.floor(random.fraction() * mostStrings + 1);
    const seed = random.below(instance.jobCount) * neighbours.count;
    let ruined = 0;
    for (let k = 0; k < neighbours.count && ruined < strings; k++) {
      const job = neighbours.list[seed + k]!;
      const r = routes.routeOf[job]!;
      if (r === -1 || this.isTouched[r] === 1) continue;
      this.touch(r);
      if (ruined === 0 && assigned / used > LONGEST_STRING && random.fraction() < WHOLE_ROUTE_SHARE)
        return this.removeRoute(r, absentCount);
      absentCount = this.removeString(r, job, longest, absentCount);
      ruined++;
    }
    return absentCount;
  }

  private removeRoute(r: number, absentCount: number): number {
    const { routes } = this;
    const length = routes.length[r]!;
    for (let p = 0; p < length; p++) this.absent[absentCount++] = routes.stops[r * routes.room + p]!;
    routes.remove(r, 0, length);
    routes.renew(r);
    return absentCount;
  }

  private removeString(r: number, job: number, longest: number, absentCount: number): number {
    const { routes, random } = this;
    const length = routes.length[r]!;
    const count = Math.floor(random.fraction() * Math.min(length, longest) + 1);
    const at = routes.positionOf[job]!;
    let kept = 0;
    if (count > 1 && count < length && random.fraction() < SPLIT_SHARE) {
      kept = 1;
      while (count + kept < length && random.fraction() < SPLIT_GROWS) kept++;
    }
    const span = count + kept;
    const lowest = Math.max(0, at - span + 1);
    const highest = Math.min(at, length - span);
    const from = lowest + random.below(highest - lowest + 1);
    // the kept piece lies anywhere inside the span
    const keepFrom = kept === 0 ? span : 1 + random.below(Math.max(1, count - 1));
    const base = r * routes.room;
    for (let p = 0; p < span; p++) {
      if (p >= keepFrom && p < keepFrom + kept) continue;
      this.absent[absentCount++] = routes.stops[base + from + p]!;
    }
    if (kept === 0) routes.remove(r, from, span);
    else {
      const after = keepFrom + kept;
      if (after < span) routes.remove(r, from + after, span - after);
      routes.remove(r, from, keepFrom);
    }
    // without the triangle inequality the way past a removed stop may be too long: take out more
    for (let isPossible = routes.renew(r, from, from + kept - 1); !isPossible; isPossible = routes.renew(r)) {
      const p = Math.min(from, routes.length[r]! - 1);
      this.absent[absentCount++] = routes.stops[base + p]!;
      routes.remove(r, p, 1);
    }
    return absentCount;
  }

  /**
   * Puts in, time and again, the open job that would lose most by not getting its best place now.
   * @source J.-Y. Potvin, J.-M. Rousseau, "A parallel route building algorithm for the vehicle routing and scheduling
   * problem with time windows", European Journal of Operational Research 66(3), 1993: the regret, over two routes here
   */
  private putInByRegret(): void {
    const { instance, routes, insertions } = this;
    for (;;) {
      let [mostRegret, chosen, chosenRoute] = [Number.NEGATIVE_INFINITY, -1, -1];
      for (let i = 0; i < this.openCount; i++) {
        const job = this.open[i]!;
        if (routes.routeOf[job] !== -1) continue;
        const openCost = instance.openCost[job]!;
        let [best, second, bestRoute] = [openCost, openCost, -1];
        for (let a = this.firstAble[job]!; a < this.firstAble[job + 1]!; a++) {
          insertions.find(job, this.able[a]!);
          if (insertions.cost < best) [second, best, bestRoute] = [best, insertions.cost, this.able[a]!];
          else if (insertions.cost < second) second = insertions.cost;
        }
        if (bestRoute === -1) continue;
        const regret = second - best + OPEN_COST_SHARE * (openCost - best);
        if (regret > mostRegret) [mostRegret, chosen, chosenRoute] = [regret, job, bestRoute];
      }
      if (chosen === -1) return;
      insertions.find(chosen, chosenRoute);
      routes.insert(chosenRoute, insertions.position, chosen);
    }
  }

  private putBack(absentCount: number): void {
    const { instance, routes, insertions, random } = this;
    for (let i = 0; i < absentCount; i++) {
      const job = this.absent[i]!;
      let [bestCost, bestRoute, bestPosition] = [instance.openCost[job]!, -1, -1];
      this.looks++;
      const last = this.firstAble[job + 1]!;
      for (let a = this.firstAble[job]!; a < last; a++) {
        const r = this.able[a]!;
        if (routes.length[r] === 0) {
          const kind = instance.alike[r]!;
          if (this.seenEmpty[kind] === this.looks) continue;
          this.seenEmpty[kind] = this.looks;
        }
        insertions.find(job, r);
        if (insertions.cost >= bestCost) continue;
        if (random.fraction() < BLINK) {
          insertions.findElsewhere(job, r, insertions.position);
          if (insertions.cost >= bestCost) continue;
        }
        [bestCost, bestRoute, bestPosition] = [insertions.cost, r, insertions.position];
      }
      if (bestRoute === -1) continue;
      this.touch(bestRoute);
      routes.insert(bestRoute, bestPosition, job);
    }
  }
}

/** Writes the stops of each route in turn, each closed by -1. */
export function writeOrder(routes: Routes, into: Int32Array): void {
  let at = 0;
  for (let r = 0; r < routes.length.length; r++) {
    const base = r * routes.room;
    for (let p = 0; p < routes.length[r]!; p++) into[at++] = routes.stops[base + p]!;
    into[at++] = -1;
  }
  into.fill(-1, at);
}
