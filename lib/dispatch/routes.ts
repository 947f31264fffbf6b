import { AT_ONCE, allowWaiting, CostPieces, takeLower } from "./cost-pieces";
import { HINGES, type Instance, TIME_TOLERANCE_S } from "./instance";

const NEVER = Number.POSITIVE_INFINITY;
/** Pieces kept of a cost of arriving; a route with more turning points is judged roughly, never wrongly. */
const PIECES = 48;

/**
 * The routes of a plan being searched, with what makes one insertion checkable in constant time.
 *
 * Forward, for each stop: the earliest end of its service with lunch still to come (0) or behind (1), and what the
 * way there costs at those times. Backward: the latest arrival that leaves the rest possible, and, where times cost
 * anything on the route, the cost of the rest as a function of the arrival. Both are exact for a given order, lunch
 * anywhere and several windows included, because arriving earlier never makes anything impossible.
 */
export class Routes {
  readonly stops: Int32Array;
  readonly length: Int32Array;
  readonly room: number;
  private readonly nodeCount: number;
  readonly routeOf: Int32Array;
  readonly positionOf: Int32Array;
  /** The way to a job from whatever comes before it. */
  private readonly wayInS: Float64Array;
  readonly end0S: Float64Array;
  readonly end1S: Float64Array;
  readonly spent0: Float64Array;
  readonly spent1: Float64Array;
  /** Start and end of service on the cheapest timing, which side of lunch it is on, and its cost so far. */
  readonly plannedStartS: Float64Array;
  readonly plannedEndS: Float64Array;
  readonly plannedSpent: Float64Array;
  readonly plannedAfterLunch: Uint8Array;
  readonly latest0S: Float64Array;
  readonly latest1S: Float64Array;
  /** What leaving the order of stops alone costs: travel and choice of person, then times. */
  readonly wayCost: Float64Array;
  readonly timeCost: Float64Array;
  readonly hasTimeCost: Uint8Array;
  readonly load: Float64Array;
  readonly parts: Float64Array;
  /** Changes with the stops and comes back with them, so that what was found out about a route can be kept. */
  readonly version: Float64Array;
  private versions = 0;

  private readonly pieceCount: Int32Array;
  /** Pieces of the costs of arriving, four numbers each: from, value, slope, where to wait until. */
  private readonly pieces: Float64Array;
  private readonly travel: Float64Array;
  private readonly place: Int32Array;
  private readonly placeCount: number;
  private readonly scratch = [0, 1, 2, 3].map(() => new CostPieces(4 * PIECES)) as [
    CostPieces,
    CostPieces,
    CostPieces,
    CostPieces,
  ];

  constructor(readonly instance: Instance) {
    const { jobCount, technicianCount, nodeCount, partCount } = instance;
    this.room = jobCount;
    this.nodeCount = nodeCount;
    this.stops = new Int32Array(technicianCount * this.room);
    this.length = new Int32Array(technicianCount);
    this.routeOf = new Int32Array(jobCount).fill(-1);
    this.positionOf = new Int32Array(jobCount);
    this.wayInS = new Float64Array(jobCount);
    const perNode = () => new Float64Array(nodeCount);
    const perRoute = () => new Float64Array(technicianCount);
    [this.end0S, this.end1S, this.spent0, this.spent1] = [perNode(), perNode(), perNode(), perNode()];
    [this.plannedStartS, this.plannedEndS, this.plannedSpent] = [perNode(), perNode(), perNode()];
    this.plannedAfterLunch = new Uint8Array(nodeCount);
    [this.latest0S, this.latest1S] = [perNode(), perNode()];
    [this.wayCost, this.timeCost, this.load, this.version] = [perRoute(), perRoute(), perRoute(), perRoute()];
    this.hasTimeCost = new Uint8Array(technicianCount);
    this.parts = new Float64Array(technicianCount * partCount);
    this.pieceCount = new Int32Array(2 * nodeCount);
    this.pieces = new Float64Array(2 * nodeCount * PIECES * 4);
    this.travel = instance.travelS;
    this.place = instance.place;
    this.placeCount = instance.placeCount;
    for (let r = 0; r < technicianCount; r++) {
      const [start, end] = [jobCount + r, jobCount + technicianCount + r];
      const lunch = instance.hasLunch[r] === 1;
      this.end0S[start] = this.plannedEndS[start] = instance.availableS[r]!;
      this.end1S[start] = lunch ? NEVER : instance.availableS[r]!;
      if (!lunch) this.end0S[start] = NEVER;
      this.plannedAfterLunch[start] = lunch ? 0 : 1;
      this.latest1S[end] = instance.finishS[r]! + instance.overtimeS[r]!;
      this.latest0S[end] = -NEVER;
      this.keepDayEnd(r, end);
      this.renew(r);
    }
  }

  private keepDayEnd(r: number, end: number): void {
    const { earliestS, finishS, overtimeS, overtimeSlope } = this.instance;
    const pieces = this.scratch[0];
    pieces.clear();
    pieces.end = this.latest1S[end]!;
    pieces.push(earliestS, 0, 0);
    if (overtimeSlope > 0 && overtimeS[r]! > 0) pieces.addAfter(finishS[r]!, overtimeSlope);
    const base = (this.instance.nodeCount + end) * PIECES;
    for (let k = 0; k < pieces.count; k++) this.keepPiece(base + k, pieces, k);
    this.pieceCount[this.instance.nodeCount + end] = pieces.count;
  }

  travelS(a: number, b: number): number {
    return this.travel[this.place[a]! * this.placeCount + this.place[b]!]!;
  }

  /** The earliest start of a job for an arrival; never, if no window is left. */
  earliestStart(job: number, arrivalS: number): number {
    const { firstWindow, windowFromS, windowToS } = this.instance;
    const last = firstWindow[job + 1]!;
    for (let w = firstWindow[job]!; w < last; w++) {
      if (arrivalS <= windowToS[w]! + TIME_TOLERANCE_S) return Math.max(arrivalS, windowFromS[w]!);
    }
    return NEVER;
  }

  private latestStart(job: number, limitS: number): number {
    const { firstWindow, windowFromS, windowToS } = this.instance;
    for (let w = firstWindow[job + 1]! - 1; w >= firstWindow[job]!; w--) {
      if (limitS >= windowFromS[w]! - TIME_TOLERANCE_S) return Math.min(limitS, windowToS[w]!);
    }
    return -NEVER;
  }

  /** Arrival at the end of a way with lunch on it. */
  arrivalOverLunch(r: number, leavingS: number, travelS: number): number {
    const { lunchFromS, lunchToS, lunchS } = this.instance;
    if (leavingS > lunchToS[r]! + TIME_TOLERANCE_S) return NEVER;
    return lunchS[r]! + Math.max(leavingS + travelS, lunchFromS[r]!);
  }

  /** What a job's start costs: late, slow to respond, away from what was promised. */
  startCost(job: number, startS: number): number {
    const { hingeS, hingeSlope, earlyS, earlySlope } = this.instance;
    let cost = 0;
    for (let h = job * HINGES; h < (job + 1) * HINGES; h++) {
      const late = startS - hingeS[h]!;
      if (late > 0) cost += late * hingeSlope[h]!;
    }
    const early = earlyS[job]! - startS;
    return early > 0 ? cost + early * earlySlope[job]! : cost;
  }

  /** The cost of the rest of the day from this arrival on; never, if it cannot be done. */
  restCost(node: number, afterLunch: 0 | 1, arrivalS: number): number {
    const latestS = afterLunch === 1 ? this.latest1S[node]! : this.latest0S[node]!;
    if (arrivalS > latestS + TIME_TOLERANCE_S) return NEVER;
    const { pieces } = this;
    const k = this.pieceAt(afterLunch * this.nodeCount + node, arrivalS);
    return pieces[k + 1]! + pieces[k + 2]! * (arrivalS - pieces[k]!);
  }

  cost(r: number): number {
    return this.length[r] === 0 ? 0 : this.wayCost[r]! + this.timeCost[r]! + this.instance.technicianCost;
  }

  insert(r: number, position: number, job: number): boolean {
    const base = r * this.room;
    const length = this.length[r]!;
    this.stops.copyWithin(base + position + 1, base + position, base + length);
    this.stops[base + position] = job;
    this.length[r] = length + 1;
    this.routeOf[job] = r;
    return this.renew(r, position, position);
  }

  /** Takes out `count` stops; the caller renews the route when it has taken out all it wants. */
  remove(r: number, position: number, count: number): void {
    const base = r * this.room;
    for (let p = position; p < position + count; p++) this.routeOf[this.stops[base + p]!] = -1;
    this.stops.copyWithin(base + position, base + position + count, base + this.length[r]!);
    this.length[r]! -= count;
  }

  /** Puts a whole route back as it was. */
  restore(r: number, stops: Int32Array, from: number, length: number, version: number): void {
    const base = r * this.room;
    for (let p = 0; p < length; p++) {
      const job = stops[from + p]!;
      this.stops[base + p] = job;
      this.routeOf[job] = r;
    }
    this.length[r] = length;
    this.renew(r);
    this.version[r] = version;
  }

  /**
   * Works everything out anew for the stops as they are; false if no timing of them is possible. Where only the stops
   * from `first` to `last` are new, or have a new neighbour between them, what lies before is kept looking forward and
   * what lies after looking back.
   */
  renew(r: number, first = 0, last = this.length[r]!): boolean {
    const { instance, stops, end0S, end1S, wayInS } = this;
    const { jobCount, technicianCount, serviceS, isTimed, partCount, technicianCount: m, choiceCost } = instance;
    this.version[r] = ++this.versions;
    const base = r * this.room;
    const length = this.length[r]!;
    const lunch = instance.hasLunch[r] === 1;
    const wasTimed = this.hasTimeCost[r] === 1;
    let timed = instance.overtimeSlope > 0 && instance.overtimeS[r]! > 0;
    let isSettled = false;
    let travelled = 0;
    let chosen = 0;
    let load = 0;
    this.parts.fill(0, r * partCount, (r + 1) * partCount);
    let previous = jobCount + r;
    for (let p = 0; p < length; p++) {
      const job = stops[base + p]!;
      chosen += choiceCost[job * m + r]!;
      load += instance.load[job]!;
      if (instance.needsParts[job] === 1)
        for (let part = 0; part < partCount; part++)
          this.parts[r * partCount + part]! += instance.parts[job * partCount + part]!;
      this.positionOf[job] = p;
      if (isTimed[job] === 1) timed = true;
      if (p < first || isSettled) {
        travelled += wayInS[job]!;
        previous = job;
        continue;
      }
      const travelS = this.travelS(previous, job);
      wayInS[job] = travelS;
      travelled += travelS;
      const was0S = end0S[job]!;
      const was1S = end1S[job]!;
      const wasSpent0 = this.spent0[job]!;
      const wasSpent1 = this.spent1[job]!;
      let arrival1S = end1S[previous]! + travelS;
      let spent1 = this.spent1[previous]!;
      if (lunch) {
        const over = this.arrivalOverLunch(r, end0S[previous]!, travelS);
        if (over < arrival1S) {
          arrival1S = over;
          spent1 = this.spent0[previous]!;
        }
        const start0S = this.earliestStart(job, end0S[previous]! + travelS);
        end0S[job] = start0S + serviceS[job]!;
        if (isTimed[job] === 1 && start0S < NEVER)
          this.spent0[job] = this.spent0[previous]! + this.startCost(job, start0S);
        else this.spent0[job] = this.spent0[previous]!;
      } else end0S[job] = NEVER;
      const start1S = this.earliestStart(job, arrival1S);
      end1S[job] = start1S + serviceS[job]!;
      if (isTimed[job] === 1 && start1S < NEVER) spent1 += this.startCost(job, start1S);
      this.spent1[job] = spent1;
      isSettled =
        p > last &&
        was0S === end0S[job] &&
        was1S === end1S[job] &&
        wasSpent0 === this.spent0[job] &&
        wasSpent1 === spent1;
      previous = job;
    }
    const end = jobCount + technicianCount + r;
    const homeS = this.travelS(previous, end);
    this.load[r] = load;
    this.wayCost[r] = (travelled + homeS) * instance.travelWeight + chosen;
    this.hasTimeCost[r] = timed ? 1 : 0;
    this.timeCost[r] = 0;
    this.lookBack(r, timed && !wasTimed ? length : Math.min(last + 1, length), end, timed);
    if (length === 0) return true;
    let finishS = end1S[previous]! + homeS;
    if (lunch) finishS = Math.min(finishS, this.arrivalOverLunch(r, end0S[previous]!, homeS));
    if (finishS > this.latest1S[end]! + TIME_TOLERANCE_S) return false;
    if (timed) this.timeRoute(r);
    return true;
  }

  /** Looks back from the day's end, or from before the stop at `from`, which is known already. */
  private lookBack(r: number, from: number, end: number, timed: boolean): void {
    const { instance, stops, latest0S, latest1S } = this;
    const lunch = instance.hasLunch[r] === 1;
    const base = r * this.room;
    let next = from < this.length[r]! ? stops[base + from]! : end;
    for (let p = from - 1; p >= 0; p--) {
      const job = stops[base + p]!;
      const serviceS = instance.serviceS[job]!;
      const travelS = this.travelS(job, next);
      latest1S[job] = this.latestStart(job, latest1S[next]! - travelS - serviceS);
      latest0S[job] = -NEVER;
      if (lunch) {
        let limitS = latest0S[next]! - travelS - serviceS;
        if (instance.lunchFromS[r]! + instance.lunchS[r]! <= latest1S[next]! + TIME_TOLERANCE_S) {
          const leaveS = Math.min(instance.lunchToS[r]!, latest1S[next]! - travelS - instance.lunchS[r]!);
          limitS = Math.max(limitS, leaveS - serviceS);
        }
        latest0S[job] = this.latestStart(job, limitS);
      }
      if (timed) this.keepRestCost(r, job, next, serviceS, travelS);
      next = job;
    }
  }

  private keepRestCost(r: number, job: number, next: number, serviceS: number, travelS: number): void {
    const [rest, lunchNow, lower] = this.scratch;
    this.loadRest(rest, 1, next, serviceS + travelS);
    this.keepArrivalCost(job, 1, rest);
    if (this.instance.hasLunch[r] === 0) return;
    this.loadRest(rest, 0, next, serviceS + travelS);
    this.loadRestOverLunch(lunchNow, r, next, serviceS, travelS);
    if (rest.count > 0 && lunchNow.count > 0) takeLower(lower, rest, lunchNow);
    this.keepArrivalCost(job, 0, rest.count === 0 ? lunchNow : lunchNow.count === 0 ? rest : lower);
  }

  /** The cost of the rest as a function of the start before it, `offsetS` earlier than the arrival. */
  private loadRest(into: CostPieces, afterLunch: 0 | 1, next: number, offsetS: number): void {
    into.clear();
    const latestS = afterLunch === 1 ? this.latest1S[next]! : this.latest0S[next]!;
    if (latestS === -NEVER) return;
    into.end = latestS - offsetS;
    const { earliestS, nodeCount } = this.instance;
    if (into.end <= earliestS) return;
    const at = afterLunch * nodeCount + next;
    this.copyFrom(into, at, earliestS + offsetS, offsetS);
  }

  private loadRestOverLunch(into: CostPieces, r: number, next: number, serviceS: number, travelS: number): void {
    const { lunchFromS, lunchToS, lunchS, earliestS, nodeCount } = this.instance;
    into.clear();
    const latestS = this.latest1S[next]!;
    const soonestS = lunchFromS[r]! + lunchS[r]!;
    if (soonestS > latestS + TIME_TOLERANCE_S) return;
    const offsetS = serviceS + travelS + lunchS[r]!;
    into.end = Math.min(latestS - offsetS, lunchToS[r]! - serviceS);
    if (into.end <= earliestS) return;
    into.push(earliestS, this.restCost(next, 1, Math.max(soonestS, earliestS + offsetS)), 0);
    this.copyFrom(into, nodeCount + next, Math.max(soonestS, earliestS + offsetS), offsetS);
  }

  private copyFrom(into: CostPieces, at: number, fromArrivalS: number, offsetS: number): void {
    const { pieces } = this;
    const base = at * PIECES * 4;
    const last = base + 4 * this.pieceCount[at]! - 4;
    for (let k = base; k <= last; k += 4) {
      if (k < last && pieces[k + 4]! <= fromArrivalS) continue;
      const x = Math.max(pieces[k]!, fromArrivalS);
      if (x - offsetS >= into.end) return;
      const slope = pieces[k + 2]!;
      // a piece that begins where the last one did replaces it
      if (into.count > 0 && into.x[into.count - 1]! >= x - offsetS) into.count--;
      into.push(x - offsetS, pieces[k + 1]! + slope * (x - pieces[k]!), slope);
    }
  }

  private keepArrivalCost(job: number, afterLunch: 0 | 1, cost: CostPieces): void {
    const { instance } = this;
    const at = afterLunch * instance.nodeCount + job;
    this.pieceCount[at] = 0;
    if (cost.count === 0) return;
    if (instance.isTimed[job] === 1) {
      for (let h = job * HINGES; h < (job + 1) * HINGES; h++)
        if (instance.hingeSlope[h]! > 0) cost.addAfter(instance.hingeS[h]!, instance.hingeSlope[h]!);
      if (instance.earlySlope[job]! > 0) cost.addBefore(instance.earlyS[job]!, instance.earlySlope[job]!);
    }
    const arrival = this.scratch[3];
    if (instance.earlySlope[job] === 0 && instance.firstWindow[job + 1]! - instance.firstWindow[job]! === 1) {
      this.keepRisingCost(
        at,
        cost,
        instance.windowFromS[instance.firstWindow[job]!]!,
        instance.windowToS[instance.firstWindow[job]!]!,
      );
      return;
    }
    const { windowFromS, windowToS, firstWindow, earliestS } = instance;
    allowWaiting(arrival, cost, windowFromS, windowToS, firstWindow[job]!, firstWindow[job + 1]!, earliestS);
    const kept = Math.min(arrival.count, PIECES);
    for (let k = 0; k < kept; k++) this.keepPiece(at * PIECES + k, arrival, arrival.count - 1 - k);
    this.pieceCount[at] = kept;
  }

  /** With one window and nothing gained by a later start it is always best to start at once. */
  private keepRisingCost(at: number, cost: CostPieces, fromS: number, toS: number): void {
    const endS = Math.min(toS, cost.end);
    if (endS < fromS) return;
    const { pieces } = this;
    const first = at * PIECES * 4;
    let i = 0;
    while (i + 1 < cost.count && cost.x[i + 1]! < fromS) i++;
    pieces[first] = this.instance.earliestS;
    pieces[first + 1] = cost.v[i]! + cost.m[i]! * (fromS - cost.x[i]!);
    pieces[first + 2] = 0;
    pieces[first + 3] = AT_ONCE;
    let k = first + 4;
    const full = first + PIECES * 4;
    if (cost.m[i] === 0) i++;
    for (; i < cost.count && k < full && cost.x[i]! < endS; i++, k += 4) {
      const x = Math.max(cost.x[i]!, fromS);
      pieces[k] = x;
      pieces[k + 1] = cost.v[i]! + cost.m[i]! * (x - cost.x[i]!);
      pieces[k + 2] = cost.m[i]!;
      pieces[k + 3] = AT_ONCE;
    }
    this.pieceCount[at] = (k - first) / 4;
  }

  private keepPiece(to: number, from: CostPieces, k: number): void {
    this.pieces[4 * to] = from.x[k]!;
    this.pieces[4 * to + 1] = from.v[k]!;
    this.pieces[4 * to + 2] = from.m[k]!;
    this.pieces[4 * to + 3] = from.startAt[k]!;
  }

  /** The cheapest timing of a route, in the order of its stops, and what it costs; the route must be possible. */
  timeRoute(r: number): void {
    const { instance, stops } = this;
    const base = r * this.room;
    let previous = instance.jobCount + r;
    let afterLunch = this.plannedAfterLunch[previous]! as 0 | 1;
    let spent = 0;
    for (let p = 0; p < this.length[r]!; p++) {
      const job = stops[base + p]!;
      const travelS = this.travelS(previous, job);
      let arrivalS = this.plannedEndS[previous]! + travelS;
      let rest = this.restCost(job, afterLunch, arrivalS);
      if (afterLunch === 0) {
        const over = this.arrivalOverLunch(r, this.plannedEndS[previous]!, travelS);
        const restOver = over === NEVER ? NEVER : this.restCost(job, 1, over);
        if (restOver < rest) {
          rest = restOver;
          arrivalS = over;
          afterLunch = 1;
        }
      }
      if (p === 0) this.timeCost[r] = rest;
      const startS = this.bestStart(job, afterLunch, arrivalS);
      spent += this.startCost(job, startS);
      this.plannedStartS[job] = startS;
      this.plannedEndS[job] = startS + instance.serviceS[job]!;
      this.plannedSpent[job] = spent;
      this.plannedAfterLunch[job] = afterLunch;
      previous = job;
    }
  }

  private bestStart(job: number, afterLunch: 0 | 1, arrivalS: number): number {
    const waitUntilS = this.pieces[this.pieceAt(afterLunch * this.nodeCount + job, arrivalS) + 3]!;
    return this.earliestStart(job, Math.max(waitUntilS, arrivalS));
  }

  private pieceAt(at: number, timeS: number): number {
    const { pieces } = this;
    let k = at * PIECES * 4;
    const last = k + 4 * this.pieceCount[at]! - 4;
    while (k < last && pieces[k + 4]! < timeS) k += 4;
    return k;
  }

  /** Works out the timing of a route whose times cost nothing, for showing it. */
  timeAll(): void {
    for (let r = 0; r < this.instance.technicianCount; r++) {
      if (this.hasTimeCost[r] === 1 || this.length[r] === 0) continue;
      this.lookBack(r, this.length[r]!, this.instance.jobCount + this.instance.technicianCount + r, true);
      this.timeRoute(r);
    }
  }
}
