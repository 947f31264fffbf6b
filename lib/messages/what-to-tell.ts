/** What can be told of a visit: as it stands, and as the customer was told last. Instants in ms. */
export interface VisitFacts {
  readonly cancelled: boolean;
  /** The promised window. */
  readonly window: { readonly fromMs: number; readonly toMs: number } | null;
  /** The planned start, where no window is promised or the start leaves it. */
  readonly startMs: number | null;
}

export type Said = "promise" | "change" | "cancelled" | "on-the-way";

/** A start told without a window is "about": a shift below this says nothing new. */
export const ABOUT_MS = 30 * 60_000;

/** The facts of a visit as a customer cares for them: a start inside its promise is nobody's business but the office's. */
export function factsOf(visit: {
  readonly state: string;
  readonly windowFrom: Date | null;
  readonly windowTo: Date | null;
  readonly plannedStart: Date | null;
}): VisitFacts {
  const { windowFrom, windowTo, plannedStart } = visit;
  const window = windowFrom && windowTo ? { fromMs: windowFrom.getTime(), toMs: windowTo.getTime() } : null;
  const startMs = plannedStart?.getTime() ?? null;
  const kept = window !== null && startMs !== null && startMs >= window.fromMs && startMs <= window.toMs;
  return { cancelled: visit.state === "cancelled", window, startMs: kept ? null : startMs };
}

/** What a customer who was told `told` is to be told now; null: nothing, they know or it is past. */
export function whatToTell(
  told: VisitFacts | null,
  now: VisitFacts,
  nowMs: number,
): Exclude<Said, "on-the-way"> | null {
  if (now.cancelled) return told !== null && !told.cancelled ? "cancelled" : null;
  const known = told?.cancelled ? null : told;
  if (now.window === null && now.startMs === null) return known && !isNothing(known) ? "change" : null;
  if (Math.max(now.window?.toMs ?? 0, now.startMs ?? 0) < nowMs) return null;
  if (known === null) return "promise";
  return isSame(known, now) ? null : "change";
}

const isNothing = ({ window, startMs }: VisitFacts) => window === null && startMs === null;

function isSame(a: VisitFacts, b: VisitFacts): boolean {
  if (a.window?.fromMs !== b.window?.fromMs || a.window?.toMs !== b.window?.toMs) return false;
  if (a.startMs === null || b.startMs === null) return a.startMs === b.startMs;
  return Math.abs(a.startMs - b.startMs) < ABOUT_MS;
}
