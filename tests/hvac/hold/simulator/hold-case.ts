import type { HoldWire } from "@/lib/hvac/hold/schema";

export type Condition = "sound" | "wet" | "leaking" | "wet-and-leaking" | "not-provable";

/** A simulated hold with what is true of it. */
export interface HoldCase {
  readonly kind: string;
  readonly seed: number;
  readonly condition: Condition;
  /** Inflow that does not fade, in the circuit's own micron a minute; null where the gauge cannot see the circuit. */
  readonly leakMicronPerMin: number | null;
  /** Whether the record shows the cause, so that it must be named. */
  readonly shown: boolean;
  /** Whether ten minutes or so of plain logging: the holds whose interval width is quoted. */
  readonly ordinary: boolean;
  readonly wire: HoldWire;
}
