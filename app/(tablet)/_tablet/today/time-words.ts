import { timeWords } from "@/lib/words/en/time";
/** A clock time at the site: "14:05". */
export function clockWords(at: string, timeZone: string): string {
  return new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone }).format(Date.parse(at));
}

/** A day at the site, by name where it is near: "today", "tomorrow", "Fri 27 Nov". */
export function dayWords(at: string, timeZone: string, nowMs: number): string {
  const day = (ms: number) => new Intl.DateTimeFormat("en-CA", { timeZone }).format(ms);
  const atMs = Date.parse(at);
  if (day(atMs) === day(nowMs)) return timeWords.today;
  if (day(atMs) === day(nowMs + 24 * 3600_000)) return timeWords.tomorrow;
  return new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "short", timeZone })
    .format(atMs)
    .replace(",", "");
}

/** How far away a moment is: "in 12 min", "2 h 5 min ago", "now". */
export function awayWords(at: string, nowMs: number): string {
  const minutes = Math.round((Date.parse(at) - nowMs) / 60_000);
  if (minutes === 0) return timeWords.now;
  const length = durationWords(Math.abs(minutes) * 60);
  return minutes > 0 ? timeWords.in(length) : timeWords.ago(length);
}

/** A length of time: "45 s", "12 min", "2 h 5 min", "3 days". */
export function durationWords(seconds: number): string {
  if (seconds < 60) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  if (hours >= 48) return timeWords.days(Math.round(hours / 24));
  return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

/** A running clock: "4:07", "1:12:30". */
export function stopwatchWords(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (part: number) => String(part).padStart(2, "0");
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}
