import type { PlanExchange } from "./plan-day";

const HEADER_BYTES = 16;

/**
 * The best plan of each of several searches, in memory they share. Each search writes its own place only, and a
 * reader that catches it writing simply takes nothing.
 */
export class SharedPlans {
  private readonly stamps: Int32Array;
  private readonly costs: Float64Array;
  private readonly orders: Int32Array;

  constructor(
    readonly memory: SharedArrayBuffer,
    private readonly searches: number,
    private readonly orderLength: number,
  ) {
    this.stamps = new Int32Array(memory, 0, 2 * searches);
    this.costs = new Float64Array(memory, HEADER_BYTES * searches, searches);
    this.orders = new Int32Array(memory, (HEADER_BYTES + 8) * searches, searches * orderLength);
  }

  static bytes(searches: number, orderLength: number): number {
    return searches * (HEADER_BYTES + 8 + 4 * orderLength);
  }

  /** The view one search has of the others. */
  of(own: number): PlanExchange {
    return {
      offer: (cost, order) => {
        Atomics.add(this.stamps, 2 * own, 1);
        this.costs[own] = cost;
        this.orders.set(order, own * this.orderLength);
        Atomics.add(this.stamps, 2 * own, 1);
      },
      better: (cost) => {
        let found: Int32Array | undefined;
        let lowest = cost;
        for (let other = 0; other < this.searches; other++) {
          if (other === own) continue;
          const stamp = Atomics.load(this.stamps, 2 * other);
          if (stamp === 0 || stamp % 2 === 1 || this.costs[other]! >= lowest) continue;
          const offered = this.costs[other]!;
          const order = this.orders.slice(other * this.orderLength, (other + 1) * this.orderLength);
          if (Atomics.load(this.stamps, 2 * other) === stamp) [found, lowest] = [order, offered];
        }
        return found;
      },
    };
  }

  /** Says that a search has ended. */
  finish(own: number): void {
    Atomics.store(this.stamps, 2 * own + 1, 1);
    Atomics.notify(this.stamps, 2 * own + 1);
  }

  /** Waits for another search to end; a started one that hangs is not waited for longer than this. */
  waitFor(other: number, atMostMs: number): void {
    Atomics.wait(this.stamps, 2 * other + 1, 0, atMostMs);
  }
}
