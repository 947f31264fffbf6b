import * as z from "zod";
import { parseClock } from "./field-time";
import { optionalNumber, requiredNumber } from "./fields";

const clock = z.string().transform((typed, context): number | null => {
  if (typed.trim() === "") return null;
  const minutes = parseClock(typed);
  if (minutes !== null && minutes < 1440) return minutes;
  context.addIssue({ code: "custom", message: "Give a time as 11:30." });
  return z.NEVER;
});
const hours = (max: number) =>
  optionalNumber({ min: 0.5, max }).transform((value) => (value === null ? null : Math.round(value * 60)));
const speed = requiredNumber({ min: 3, max: 150 }, "Give a speed.");

/** What the office types of working time and roads; the rules as they are kept. */
export const planningRulesForm = z
  .strictObject({
    maxDayHours: hours(24),
    maxOvertimeMinutes: requiredNumber({ min: 0, max: 720, whole: true }, "Give minutes; 0 for none."),
    maxWeekHours: hours(168),
    minRestHours: hours(24),
    lunchFrom: clock,
    lunchTo: clock,
    lunchMinutes: requiredNumber({ min: 0, max: 180, whole: true }, "Give minutes; 0 for none."),
    startSlackMinutes: requiredNumber({ min: 0, max: 240, whole: true }, "Give minutes."),
    yardLatitude: optionalNumber({ min: -90, max: 90 }),
    yardLongitude: optionalNumber({ min: -180, max: 180 }),
    roadFactor: requiredNumber({ min: 1, max: 3 }, "Give the factor."),
    kmhTo5Km: speed,
    kmhTo20Km: speed,
    kmhTo60Km: speed,
    kmhBeyond: speed,
    arrivingMinutes: requiredNumber({ min: 0, max: 60 }, "Give minutes; 0 for none."),
  })
  .refine(({ lunchFrom: from, lunchTo: to }) => (from === null) === (to === null) && (from ?? 0) <= (to ?? 0), {
    path: ["lunchTo"],
    error: "Give the earliest and the latest start of lunch, or neither.",
  })
  .refine(({ yardLatitude: lat, yardLongitude: lon }) => (lat === null) === (lon === null), {
    path: ["yardLongitude"],
    error: "A place needs both numbers, or neither.",
  })
  .transform(({ maxDayHours, maxWeekHours, minRestHours, lunchFrom, lunchTo, ...same }) => ({
    ...same,
    maxDayMinutes: maxDayHours,
    maxWeekMinutes: maxWeekHours,
    minRestMinutes: minRestHours,
    lunchFromMinute: lunchFrom,
    lunchToMinute: lunchTo,
  }));
