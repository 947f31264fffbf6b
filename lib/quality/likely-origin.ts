/** An earlier job a new work order may come back from. */
export interface OriginCandidate {
  readonly jobId: string;
  readonly sameCircuit: boolean;
  /** Whole days from closing the job to the new order, never below 0. */
  readonly daysBetween: number;
}

/**
 * The job a return most likely comes from; null without a candidate inside the window.
 *
 * The same circuit goes before another circuit of the unit, then whoever was there last: nobody has touched it since.
 * How strong the earlier proof was has no say, or the figures would find what the proposal put in.
 */
export function chooseOrigin<C extends OriginCandidate>(candidates: readonly C[], windowDays: number): C | null {
  const within = candidates.filter(({ daysBetween }) => daysBetween >= 0 && daysBetween <= windowDays);
  return (
    within.reduce<C | null>((best, each) => {
      if (best === null || each.sameCircuit !== best.sameCircuit)
        return best === null || each.sameCircuit ? each : best;
      return each.daysBetween < best.daysBetween ? each : best;
    }, null) ?? null
  );
}
