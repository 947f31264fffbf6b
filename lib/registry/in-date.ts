/** How a date that must not pass stands today. */
export type InDate = "in-date" | "due-soon" | "out-of-date" | "no-date";

const SOON_DAYS = 30;

/** Dates as YYYY-MM-DD on one calendar; the last day still counts. */
export function judgeInDate(lastDay: string | null, today: string): InDate {
  if (lastDay === null) return "no-date";
  if (lastDay < today) return "out-of-date";
  const daysLeft = (Date.parse(lastDay) - Date.parse(today)) / 86_400_000;
  return daysLeft <= SOON_DAYS ? "due-soon" : "in-date";
}
