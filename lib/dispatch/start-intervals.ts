import { TIME_TOLERANCE_S } from "./instance";
import type { Routes } from "./routes";

export interface StartInterval {
  readonly technician: number;
  readonly position: number;
  readonly fromS: number;
  readonly toS: number;
}

/**
 * When a job could start on a route, place by place, whatever its own windows say: everything else on the route stays
 * possible anywhere inside each interval. Skills, stock and load are not looked at.
 */
export function listStartIntervals(routes: Routes, job: number, r: number): readonly StartInterval[] {
  const { instance } = routes;
  const { jobCount, technicianCount, lunchFromS, lunchToS, lunchS } = instance;
  const serviceS = instance.serviceS[job]!;
  const found: StartInterval[] = [];
  let previous = jobCount + r;
  for (let position = 0; position <= routes.length[r]!; position++) {
    const last = position === routes.length[r]!;
    const next = last ? jobCount + technicianCount + r : routes.stops[r * routes.room + position]!;
    const toS = routes.travelS(previous, job);
    const closingS = serviceS + routes.travelS(job, next);
    const add = (fromS: number, untilS: number) => {
      if (fromS <= untilS + TIME_TOLERANCE_S)
        found.push({ technician: r, position, fromS, toS: Math.max(fromS, untilS) });
    };
    const latest1S = routes.latest1S[next]! - closingS;
    add(routes.end1S[previous]! + toS, latest1S);
    if (instance.hasLunch[r] === 1) {
      const end0S = routes.end0S[previous]!;
      add(end0S + toS, routes.latest0S[next]! - closingS);
      add(routes.arrivalOverLunch(r, end0S, toS), latest1S);
      if (lunchFromS[r]! + lunchS[r]! <= routes.latest1S[next]! + TIME_TOLERANCE_S)
        add(end0S + toS, Math.min(lunchToS[r]! - serviceS, latest1S - lunchS[r]!));
    }
    previous = next;
  }
  return found;
}
