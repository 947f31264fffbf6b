import { type Instance, TIME_TOLERANCE_S } from "./instance";
import type { Routes } from "./routes";

const NEVER = Number.POSITIVE_INFINITY;

/** Finds where a job fits best on a route, and remembers it for as long as the route stays as it is. */
export class Insertions {
  /** The answer of the last look: position and added cost. */
  position = -1;
  cost = NEVER;
  /** Positions tried since the start, for measuring. */
  evaluated = 0;

  private readonly keptVersion: Float64Array;
  private readonly keptCost: Float64Array;
  private readonly keptPosition: Int32Array;

  constructor(
    private readonly instance: Instance,
    private readonly routes: Routes,
  ) {
    const pairs = instance.jobCount * instance.technicianCount;
    this.keptVersion = new Float64Array(pairs);
    this.keptCost = new Float64Array(pairs);
    this.keptPosition = new Int32Array(pairs);
  }

  /** The cheapest place on route r for an open job. */
  find(job: number, r: number): void {
    const at = job * this.instance.technicianCount + r;
    if (this.keptVersion[at] !== this.routes.version[r]) {
      this.keptVersion[at] = this.routes.version[r]!;
      this.look(job, r, -1);
      this.keptCost[at] = this.cost;
      this.keptPosition[at] = this.position;
      return;
    }
    this.cost = this.keptCost[at]!;
    this.position = this.keptPosition[at]!;
  }

  /** The same, leaving out one position. */
  findElsewhere(job: number, r: number, not: number): void {
    this.look(job, r, not);
  }

  private fits(job: number, r: number): boolean {
    const { instance, routes } = this;
    const { partCount } = instance;
    if (instance.allowed[job * instance.technicianCount + r] === 0) return false;
    if (routes.length[r]! + 1 > instance.maxJobs[r]!) return false;
    if (routes.load[r]! + instance.load[job]! > instance.capacity[r]! + TIME_TOLERANCE_S) return false;
    if (instance.needsParts[job] === 0) return true;
    for (let part = 0; part < partCount; part++) {
      const needed = instance.parts[job * partCount + part]!;
      if (
        needed > 0 &&
        routes.parts[r * partCount + part]! + needed > instance.stock[r * partCount + part]! + TIME_TOLERANCE_S
      )
        return false;
    }
    return true;
  }

  private look(job: number, r: number, not: number): void {
    this.cost = NEVER;
    this.position = -1;
    if (!this.fits(job, r)) return;
    const { instance, routes } = this;
    if (instance.hasLunch[r] === 0 && routes.hasTimeCost[r] === 0 && instance.isTimed[job] === 0)
      this.lookPlain(job, r, not);
    else this.lookTimed(job, r, not);
    if (routes.length[r] === 0 && this.cost < NEVER) this.cost += instance.technicianCost;
  }

  /** Where neither lunch nor the cost of times comes into it: two additions and two comparisons a position. */
  private lookPlain(job: number, r: number, not: number): void {
    const { instance, routes } = this;
    const { travelS, place, placeCount, jobCount, travelWeight } = instance;
    const { stops, end1S, latest1S } = routes;
    const base = r * routes.room;
    const length = routes.length[r]!;
    const own = place[job]!;
    const serviceS = instance.serviceS[job]!;
    const latestStartS = instance.windowToS[instance.firstWindow[job + 1]! - 1] ?? -NEVER;
    let best = NEVER;
    let bestPosition = -1;
    let previous = jobCount + r;
    let previousPlace = place[previous]!;
    this.evaluated += length + 1;
    for (let p = 0; p <= length; p++) {
      const next = p < length ? stops[base + p]! : jobCount + instance.technicianCount + r;
      const nextPlace = place[next]!;
      const toS = travelS[previousPlace * placeCount + own]!;
      const leftS = end1S[previous]!;
      if (leftS + toS > latestStartS + TIME_TOLERANCE_S) break;
      const onS = travelS[own * placeCount + nextPlace]!;
      const more = toS + onS - (length === 0 ? 0 : travelS[previousPlace * placeCount + nextPlace]!);
      if (more < best && p !== not) {
        const startS = routes.earliestStart(job, leftS + toS);
        if (startS + serviceS + onS <= latest1S[next]! + TIME_TOLERANCE_S) {
          best = more;
          bestPosition = p;
        }
      }
      previous = next;
      previousPlace = nextPlace;
    }
    if (bestPosition === -1) return;
    this.cost = best * travelWeight + instance.choiceCost[job * instance.technicianCount + r]!;
    this.position = bestPosition;
  }

  private lookTimed(job: number, r: number, not: number): void {
    const { instance, routes } = this;
    const { jobCount, technicianCount, travelWeight } = instance;
    const length = routes.length[r]!;
    const base = r * routes.room;
    const chosen = instance.choiceCost[job * technicianCount + r]!;
    const serviceS = instance.serviceS[job]!;
    const standing = routes.timeCost[r]!;
    const soonestS = instance.hasLunch[r] === 1 ? routes.end0S : routes.end1S;
    let previous = jobCount + r;
    this.evaluated += length + 1;
    for (let p = 0; p <= length; p++) {
      const next = p < length ? routes.stops[base + p]! : jobCount + technicianCount + r;
      const toS = routes.travelS(previous, job);
      const soonestStartS = routes.earliestStart(job, soonestS[previous]! + toS);
      if (soonestStartS === NEVER) break;
      const onS = routes.travelS(job, next);
      const moreS = toS + onS - (length === 0 ? 0 : routes.travelS(previous, next));
      const more = moreS * travelWeight + chosen;
      if (
        p !== not &&
        more < this.cost &&
        soonestStartS + serviceS + onS <= routes.latest1S[next]! + TIME_TOLERANCE_S
      ) {
        const cost = more + this.timesBetween(job, r, previous, next, toS, onS) - standing;
        if (cost < this.cost) {
          this.cost = cost;
          this.position = p;
        }
      }
      previous = next;
    }
  }

  /** What all times on the route would cost with the job here. */
  private timesBetween(job: number, r: number, previous: number, next: number, toS: number, onS: number): number {
    const { instance, routes } = this;
    const lunch = instance.hasLunch[r] === 1;
    const end1S = routes.end1S[previous]!;
    let best = NEVER;
    if (lunch && routes.end0S[previous]! < NEVER)
      best = this.timesBeforeLunch(job, r, next, routes.end0S[previous]!, toS, onS) + routes.spent0[previous]!;
    if (end1S < NEVER)
      best = Math.min(best, this.timesFrom(job, r, next, 1, end1S + toS, onS) + routes.spent1[previous]!);
    if (routes.hasTimeCost[r] === 0 || previous >= instance.jobCount) return best;
    const plannedS = routes.plannedEndS[previous]!;
    if (routes.plannedAfterLunch[previous] === 1) {
      if (plannedS === end1S && routes.plannedSpent[previous]! >= routes.spent1[previous]!) return best;
      return Math.min(best, this.timesFrom(job, r, next, 1, plannedS + toS, onS) + routes.plannedSpent[previous]!);
    }
    if (plannedS === routes.end0S[previous]) return best;
    return Math.min(best, this.timesBeforeLunch(job, r, next, plannedS, toS, onS) + routes.plannedSpent[previous]!);
  }

  private timesBeforeLunch(job: number, r: number, next: number, leavingS: number, toS: number, onS: number): number {
    const before = this.timesFrom(job, r, next, 0, leavingS + toS, onS);
    const overS = this.routes.arrivalOverLunch(r, leavingS, toS);
    return overS === NEVER ? before : Math.min(before, this.timesFrom(job, r, next, 1, overS, onS));
  }

  private timesFrom(job: number, r: number, next: number, afterLunch: 0 | 1, arrivalS: number, onS: number): number {
    const { instance, routes } = this;
    const startS = routes.earliestStart(job, arrivalS);
    if (startS === NEVER) return NEVER;
    if (instance.isTimed[job] === 0) return this.timesAfter(r, next, afterLunch, startS + instance.serviceS[job]!, onS);
    const cost =
      routes.startCost(job, startS) + this.timesAfter(r, next, afterLunch, startS + instance.serviceS[job]!, onS);
    if (!(instance.earlySlope[job]! > 0 && startS < instance.earlyS[job]!)) return cost;
    const promisedS = routes.earliestStart(job, instance.earlyS[job]!);
    if (promisedS === NEVER) return cost;
    const kept = this.timesAfter(r, next, afterLunch, promisedS + instance.serviceS[job]!, onS);
    return Math.min(cost, kept + routes.startCost(job, promisedS));
  }

  private timesAfter(r: number, next: number, afterLunch: 0 | 1, leavingS: number, onS: number): number {
    const direct = this.restAt(r, next, afterLunch, leavingS + onS);
    if (afterLunch === 1) return direct;
    return Math.min(direct, this.restAt(r, next, 1, this.routes.arrivalOverLunch(r, leavingS, onS)));
  }

  private restAt(r: number, next: number, afterLunch: 0 | 1, arrivalS: number): number {
    const { routes } = this;
    if (routes.hasTimeCost[r] === 1) return routes.restCost(next, afterLunch, arrivalS);
    const latestS = afterLunch === 1 ? routes.latest1S[next]! : routes.latest0S[next]!;
    return arrivalS > latestS + TIME_TOLERANCE_S ? NEVER : 0;
  }
}
