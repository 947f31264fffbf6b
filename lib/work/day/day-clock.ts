import { instantAt } from "../site-time";

/** Turns instants into the planner's seconds of a day, and back. */
export interface DayClock {
  secondsOf(at: Date): number;
  instantOf(seconds: number): Date;
}

/**
 * Seconds count from twelve hours before noon, so that on a day on which the clocks change every time after the
 * change reads as people will read it.
 */
export function dayClock(day: string, timeZone: string): DayClock {
  const noon = instantAt(`${day}T12:00`, timeZone);
  if (noon === null) throw new Error(`no noon on ${day} in ${timeZone}`);
  const originMs = noon.getTime() - 12 * 3_600_000;
  return {
    secondsOf: (at) => Math.round((at.getTime() - originMs) / 1000),
    instantOf: (seconds) => new Date(originMs + seconds * 1000),
  };
}
