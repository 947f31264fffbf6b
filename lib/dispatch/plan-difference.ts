import { clockTime } from "./open-reason";
import type { DispatchPlan } from "./problem";

const SAME_MINUTE_S = 60;

interface Place {
  readonly technician: string;
  readonly start: number;
}

/** What changes from one plan to another, a sentence for each visit that moves; none when nothing does. */
export function describeDifference(before: DispatchPlan, after: DispatchPlan): readonly string[] {
  const [was, is] = [placesIn(before), placesIn(after)];
  const openNow = new Map(after.unassigned.map(({ job, reason }) => [job, reason]));
  const sentences: string[] = [];
  for (const job of new Set([...was.keys(), ...is.keys(), ...openNow.keys()])) {
    const [from, to] = [was.get(job), is.get(job)];
    if (from === undefined && to !== undefined)
      sentences.push(`${job} goes to ${to.technician} at ${clockTime(to.start)}.`);
    else if (from !== undefined && to === undefined)
      sentences.push(
        openNow.has(job)
          ? `${job} is no longer planned (${from.technician}, ${clockTime(from.start)}): ${openNow.get(job)}.`
          : `${job} is gone (${from.technician}, ${clockTime(from.start)}).`,
      );
    else if (from !== undefined && to !== undefined) sentences.push(...describeMove(job, from, to));
  }
  return sentences;
}

function describeMove(job: string, from: Place, to: Place): readonly string[] {
  const minutes = Math.round((to.start - from.start) / 60);
  const moved = Math.abs(to.start - from.start) >= SAME_MINUTE_S;
  const shift = `${Math.abs(minutes)} minutes ${minutes > 0 ? "later" : "earlier"}`;
  if (from.technician !== to.technician)
    return [
      `${job} goes from ${from.technician} to ${to.technician} at ${clockTime(to.start)}${moved ? `, ${shift}` : ""}.`,
    ];
  return moved ? [`${job} starts ${shift}, at ${clockTime(to.start)} (${to.technician}).`] : [];
}

function placesIn({ routes }: DispatchPlan): ReadonlyMap<string, Place> {
  return new Map(
    routes.flatMap(({ technician, stops }) =>
      stops.flatMap((stop) => ("job" in stop ? [[stop.job, { technician, start: stop.start }] as const] : [])),
    ),
  );
}
