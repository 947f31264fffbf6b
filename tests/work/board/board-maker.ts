import type { Board } from "@/lib/work/board/board";
import { makeBoard } from "@/lib/work/board/make-board";
import { listPlaces } from "@/lib/work/day/day-places";
import { makeDayProblem } from "@/lib/work/day/day-problem";
import type { DayRecords } from "@/lib/work/day/day-records";
import { at, dayOf } from "../day/day-maker";

/** A board of one day, seen at six in the morning unless told otherwise. */
export function boardOf(given: Partial<DayRecords>, now = at("06:00")): Board {
  const records = dayOf(given);
  const problem = makeDayProblem(records, listPlaces(records), []);
  const shown = new Map(
    records.visits.map((visit, n) => [
      visit.id,
      {
        orderId: visit.id,
        orderNumber: n + 1,
        callNumber: n + 101,
        customer: `Customer ${n + 1}`,
        city: "Millford",
        symptom: "warm",
      },
    ]),
  );
  return makeBoard([{ records, problem }], shown, [], now);
}
