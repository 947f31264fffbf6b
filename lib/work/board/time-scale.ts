import { type BoardDay, type BoardVisit, clockOf, dayIndexOf, endMs, isPlaced } from "./board";

/** The board's width: its days beside each other, each with the same hours. */
export interface TimeScale {
  readonly days: readonly BoardDay[];
  readonly fromS: number;
  readonly toS: number;
}

const HOUR_S = 3600;
const USUAL_FROM_S = 7 * HOUR_S;
const USUAL_TO_S = 18 * HOUR_S;
const DAY_S = 86_400;

/** The hours shown: the usual working ones, stretched to whole hours that hold every bar, bracket and shift. */
export function scaleOf(
  days: readonly BoardDay[],
  visits: readonly BoardVisit[],
  shifts: readonly { readonly fromMs: number; readonly toMs: number }[] = [],
): TimeScale {
  let [fromS, toS] = [USUAL_FROM_S, USUAL_TO_S];
  const hold = (ms: number) => {
    const d = dayIndexOf(days, ms);
    if (d < 0) return;
    const seconds = (ms - days[d]!.originMs) / 1000;
    fromS = Math.min(fromS, seconds);
    toS = Math.max(toS, seconds);
  };
  for (const visit of visits) {
    if (!isPlaced(visit)) continue;
    hold(visit.startMs);
    hold(endMs(visit));
    if (visit.window) {
      hold(visit.window.fromMs);
      hold(visit.window.toMs);
    }
  }
  for (const shift of shifts) {
    hold(shift.fromMs);
    hold(shift.toMs);
  }
  return {
    days,
    fromS: Math.max(0, Math.floor(fromS / HOUR_S) * HOUR_S),
    toS: Math.min(DAY_S, Math.ceil(toS / HOUR_S) * HOUR_S),
  };
}

/** Where an instant lies across the board, 0 to 1; hours that are not shown lie at the nearest edge of their day. */
export function fractionOf({ days, fromS, toS }: TimeScale, ms: number): number {
  const last = days.length - 1;
  const found = dayIndexOf(days, ms);
  if (found < 0 && ms < days[0]!.originMs) return 0;
  const d = found < 0 ? last : found;
  const seconds = (ms - days[d]!.originMs) / 1000;
  const within = Math.min(1, Math.max(0, (seconds - fromS) / (toS - fromS)));
  return (d + within) / days.length;
}

/** The instant at a place across the board, to the nearest step of minutes. */
export function instantAtFraction({ days, fromS, toS }: TimeScale, fraction: number, stepMinutes: number): number {
  const along = Math.min(0.999_999, Math.max(0, fraction)) * days.length;
  const d = Math.floor(along);
  const seconds = fromS + (along - d) * (toS - fromS);
  const stepS = stepMinutes * 60;
  return days[d]!.originMs + Math.round(seconds / stepS) * stepS * 1000;
}

/** Steps of dragging: finer where an hour is wider. */
export const stepMinutesOf = ({ days }: Pick<TimeScale, "days">) =>
  days.length === 1 ? 5 : days.length <= 3 ? 15 : 30;

export interface HourMark {
  readonly fraction: number;
  readonly words: string;
  readonly isMidnight: boolean;
}

/** Lines down the board, closer together where there is room. */
export function hourMarks({ days, fromS, toS }: TimeScale): readonly HourMark[] {
  const every = days.length === 1 ? 1 : days.length <= 3 ? 3 : 6;
  return days.flatMap(({ originMs }, d) => {
    const marks: HourMark[] = [];
    for (let hour = Math.ceil(fromS / HOUR_S / every) * every; hour * HOUR_S < toS; hour += every)
      marks.push({
        fraction: (d + (hour * HOUR_S - fromS) / (toS - fromS)) / days.length,
        words: clockOf(days, originMs + hour * HOUR_S * 1000),
        isMidnight: false,
      });
    if (d > 0) marks.unshift({ fraction: d / days.length, words: "", isMidnight: true });
    return marks;
  });
}
