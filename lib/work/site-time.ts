import { Temporal } from "temporal-polyfill";

/** The instant a local date and time mean at the site; times the clocks skip are moved on by the gap. */
export function instantAt(localDateTime: string, timeZone: string): Date | null {
  try {
    const zoned = Temporal.PlainDateTime.from(localDateTime).toZonedDateTime(timeZone, {
      disambiguation: "compatible",
    });
    return new Date(zoned.epochMilliseconds);
  } catch {
    return null;
  }
}

/** An instant as a value for a date-and-time field, in the site's time. */
export function localFieldValue(at: Date, timeZone: string): string {
  return zoned(at, timeZone).toPlainDateTime().toString({ smallestUnit: "minute" });
}

/** The instants between which a day lies at a place: from its midnight to the next, whatever its length. */
export function dayBounds(day: string, timeZone: string): { from: Date; to: Date } {
  const date = Temporal.PlainDate.from(day);
  const start = (d: Temporal.PlainDate) => new Date(d.toZonedDateTime(timeZone).epochMilliseconds);
  return { from: start(date), to: start(date.add({ days: 1 })) };
}

/** The calendar day at a place, as YYYY-MM-DD. */
export function dayAt(at: Date, timeZone: string): string {
  return zoned(at, timeZone).toPlainDate().toString();
}

export function addDays(day: string, days: number): string {
  return Temporal.PlainDate.from(day).add({ days }).toString();
}

/** Monday is 1, as in ISO 8601. */
export function weekdayOf(day: string): number {
  return Temporal.PlainDate.from(day).dayOfWeek;
}

export function isDay(value: unknown): value is string {
  if (typeof value !== "string" || !/^\d{4}-\d{2}-\d{2}$/.test(value)) return false;
  try {
    Temporal.PlainDate.from(value);
    return true;
  } catch {
    return false;
  }
}

function zoned(at: Date, timeZone: string): Temporal.ZonedDateTime {
  return Temporal.Instant.fromEpochMilliseconds(at.getTime()).toZonedDateTimeISO(timeZone);
}

/** Clock time at the site, 24 hours: "08:30". */
export function clockAt(at: Date, timeZone: string): string {
  return zoned(at, timeZone).toPlainTime().toString({ smallestUnit: "minute" });
}

/** Day and clock time at the site: "Wed 25 Nov, 08:30". */
export function whenAt(at: Date, timeZone: string): string {
  return `${dateWords(dayAt(at, timeZone))}, ${clockAt(at, timeZone)}`;
}

/** The same of what is past and kept, with its year: "Wed 25 Nov 2026, 08:30". */
export function whenInFull(at: Date, timeZone: string): string {
  return `${dateInFull(dayAt(at, timeZone))}, ${clockAt(at, timeZone)}`;
}

/** A promised window at the site: "Wed 25 Nov, 08:00 to 12:00". */
export function windowAt(from: Date, to: Date, timeZone: string): string {
  const sameDay = dayAt(from, timeZone) === dayAt(to, timeZone);
  return `${whenAt(from, timeZone)} to ${sameDay ? clockAt(to, timeZone) : whenAt(to, timeZone)}`;
}

/** A calendar day in words: "Wed 25 Nov". */
export function dateWords(day: string): string {
  const date = Temporal.PlainDate.from(day);
  return new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" })
    .format(Date.UTC(date.year, date.month - 1, date.day))
    .replace(",", "");
}

/** A calendar day of any year: "Wed 25 Nov 2026". */
export function dateInFull(day: string): string {
  return `${dateWords(day)} ${day.slice(0, 4)}`;
}
