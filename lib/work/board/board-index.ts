import { type Coordinates, estimateWaySeconds } from "@/lib/dispatch";
import { type Board, type BoardPerson, type BoardVisit, dayIndexOf, isPlaced } from "./board";

export type Placed = BoardVisit & { readonly startMs: number };

/** The board ready to be asked: everybody's stops by day, in the order of their start. */
export interface BoardIndex {
  readonly board: Board;
  readonly person: ReadonlyMap<string, BoardPerson>;
  readonly visit: ReadonlyMap<string, BoardVisit>;
  stopsOf(personId: string, dayIndex: number): readonly Placed[];
}

export function indexBoard(board: Board): BoardIndex {
  const stops = new Map<string, Placed[]>();
  for (const visit of board.visits) {
    if (!isPlaced(visit)) continue;
    const d = dayIndexOf(board.days, visit.startMs);
    for (const person of visit.people) {
      const key = `${person} ${d}`;
      const own = stops.get(key);
      if (own) own.push(visit);
      else stops.set(key, [visit]);
    }
  }
  for (const own of stops.values()) own.sort((a, b) => a.startMs - b.startMs || (a.id < b.id ? -1 : 1));
  return {
    board,
    person: new Map(board.people.map((person) => [person.id, person])),
    visit: new Map(board.visits.map((visit) => [visit.id, visit])),
    stopsOf: (personId, dayIndex) => stops.get(`${personId} ${dayIndex}`) ?? [],
  };
}

/** Taken for a way to or from a place nobody has put on the map, as the planner does. */
const UNMAPPED_S = 30 * 60;

/** Estimated driving from one place to another, in milliseconds of whole minutes: the board's starts are whole minutes too. */
export function wayMs({ roads }: Board, from: Coordinates | null, to: Coordinates | null): number {
  if (from === null || to === null) return UNMAPPED_S * 1000;
  return Math.floor(estimateWaySeconds(from, to, roads) / 60) * 60_000;
}
