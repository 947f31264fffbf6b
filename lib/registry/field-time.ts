import * as z from "zod";
import { PersonId } from "@/lib/ids";
import { line, optionalId, optionalNumber, tick } from "./fields";

export const WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"] as const;

export interface WeekdayHours {
  /** Monday is 1. */
  readonly weekday: number;
  readonly beginsMinute: number | null;
  readonly endsMinute: number | null;
}
export type WeekFields = readonly WeekdayHours[];

/** Minutes after midnight of a typed "8:00" or "08:00"; 24:00 is the end of the day. */
export function parseClock(typed: string): number | null {
  const match = /^(\d{1,2}):(\d{2})$/.exec(typed.trim());
  if (match === null) return null;
  const minutes = Number(match[1]) * 60 + Number(match[2]);
  return Number(match[2]) < 60 && minutes <= 1440 ? minutes : null;
}

/** "08:00" for 480. */
export function clockWords(minutes: number): string {
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/** Hours as they are typed, "08:00-17:00"; "" is a day off. */
const hours = z.string().transform((typed, context): { begins: number; ends: number } | null => {
  if (typed.trim() === "") return null;
  const [from, to, ...rest] = typed.split(/\s*(?:-|–|to)\s*/);
  const [begins, ends] = [parseClock(from ?? ""), parseClock(to ?? "")];
  if (begins !== null && ends !== null && rest.length === 0 && begins < ends) return { begins, ends };
  context.addIssue({ code: "custom", message: "Give hours as 08:00-17:00, or leave it empty for a day off." });
  return z.NEVER;
});

/** An ordinary week, a field for each day: day1 is Monday. */
export const weekForm = z
  .strictObject({ day1: hours, day2: hours, day3: hours, day4: hours, day5: hours, day6: hours, day7: hours })
  .transform(
    (week): WeekFields =>
      Object.values(week).map((each, index) => ({
        weekday: index + 1,
        beginsMinute: each?.begins ?? null,
        endsMinute: each?.ends ?? null,
      })),
  );

export const PERSON_TIME_KINDS = ["away", "on-call"] as const;
export const personTimeWord: Readonly<Record<(typeof PERSON_TIME_KINDS)[number], string>> = {
  away: "Away",
  "on-call": "On call",
};

const clock = z.string().refine((typed) => typed.trim() === "" || parseClock(typed) !== null, {
  error: "Give a time as 08:00, or leave it empty for the whole day.",
});

/** A time away or on call as typed; without clock times it is whole days, the last one included. */
export const personTimeForm = z.strictObject({
  kind: z.enum(PERSON_TIME_KINDS),
  fromDay: z.iso.date("Give the first day."),
  fromClock: clock,
  toDay: z.iso.date("Give the last day."),
  toClock: clock,
  note: line(200),
});

const latitude = optionalNumber({ min: -90, max: 90 });
const longitude = optionalNumber({ min: -180, max: 180 });

export const fieldProfileForm = z
  .strictObject({
    baseName: line(200),
    latitude,
    longitude,
    endsAtBase: tick,
    isApprentice: tick,
    ridesWith: optionalId(PersonId),
    maxVisits: optionalNumber({ min: 1, max: 50, whole: true }),
  })
  .refine(({ latitude: lat, longitude: lon }) => (lat === null) === (lon === null), {
    path: ["longitude"],
    error: "A place needs both numbers, or neither.",
  });
export type FieldProfileFields = z.output<typeof fieldProfileForm>;
