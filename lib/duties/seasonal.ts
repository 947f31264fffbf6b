import { addDays } from "@/lib/hvac/calendar-day";
import type { Addition, LawEvent } from "./duty";
import { byDay } from "./leak-rates";

/** How long after the removal the addition counts as its return, in days. */
const RETURNS_WITHIN_DAYS = 365;

/**
 * Additions as the leak rate counts them: what an event calls the return of refrigerant taken out for the season is left out, up to what
 * was taken out in the twelve months before and has not come back yet; what was added beyond that is an addition like any other.
 *
 * @param removals net of one service each, in grams taken out
 * @source seasonal variance: 40 CFR 82.157(b) leaves it out of the calculation [read]; the definition in 82.152 from memory
 */
export function withoutSeasonalReturns(
  additions: readonly Addition[],
  removals: readonly Addition[],
  events: readonly LawEvent[],
): Addition[] {
  const returned = new Set(events.filter(({ kind }) => kind === "seasonal-return").map(({ on }) => on));
  if (returned.size === 0) return [...additions];
  const out = byDay(removals).map(({ on, grams }) => ({ on, grams }));
  return byDay(additions).flatMap(({ on, grams }): Addition[] => {
    if (!returned.has(on)) return [{ on, grams }];
    let left = grams;
    for (const removal of out) {
      if (removal.on > on || addDays(removal.on, RETURNS_WITHIN_DAYS) < on) continue;
      const back = Math.min(left, removal.grams);
      removal.grams -= back;
      left -= back;
    }
    return left > 0 ? [{ on, grams: left }] : [];
  });
}
