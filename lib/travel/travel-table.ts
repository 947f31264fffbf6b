import "server-only";
import { type Coordinates, estimateTravelSeconds, type RoadProfile } from "@/lib/dispatch";
import { askRoadService, type RoadService, type RoadServiceFailure } from "./road-service";

/** A place to the ten-thousandth of a degree, about 11 m: what is kept of a way is kept between such cells. */
export interface Cell {
  readonly lat: number;
  readonly lon: number;
}
/** Seconds of driving one way, as a road service gave them. */
export interface Leg {
  readonly from: Cell;
  readonly to: Cell;
  readonly seconds: number;
}

export interface TravelTable {
  readonly seconds: readonly (readonly number[])[];
  /** Ways asked for now, to be kept for the next time. */
  readonly learned: readonly Leg[];
  readonly notes: readonly string[];
}

/** Assumed between a place nobody has put on the map and any other. */
const UNMAPPED_S = 30 * 60;
/** Services are set up for a hundred places in one question; the address grows by up to 40 characters with each. */
const PLACES_A_SIDE = 40;
const DEGREE_PARTS = 10_000;

export function cellOf({ latitudeDeg, longitudeDeg }: Coordinates): Cell {
  return { lat: Math.round(latitudeDeg * DEGREE_PARTS), lon: Math.round(longitudeDeg * DEGREE_PARTS) };
}

export function cellsOf(places: readonly (Coordinates | null)[]): readonly Cell[] {
  const cells = places.flatMap((place) => (place === null ? [] : cellOf(place)));
  return [...new Map(cells.map((cell) => [keyOf(cell), cell])).values()];
}

/**
 * Seconds from each place to each. With a road service its answers go before the estimate, those kept from earlier
 * first; where it does not answer, the estimate stands and a note says so.
 */
export async function makeTravelTable(
  places: readonly (Coordinates | null)[],
  roads: RoadProfile,
  road?: { readonly service: RoadService; readonly known: readonly Leg[] },
): Promise<TravelTable> {
  const seconds = estimateAll(places, roads);
  if (road === undefined) return { seconds, learned: [], notes: [] };
  const cells = cellsOf(places);
  const ways = new Map(road.known.map((leg) => [wayKey(leg.from, leg.to), leg.seconds]));
  const asked = await askMissing(road.service, cells, ways);
  for (const leg of asked.learned) ways.set(wayKey(leg.from, leg.to), leg.seconds);
  let guessed = 0;
  const keys = places.map((place) => place && keyOf(cellOf(place)));
  keys.forEach((from, a) => {
    keys.forEach((to, b) => {
      if (from === null || to === null || from === to) return;
      const drivingS = ways.get(`${from} ${to}`);
      if (drivingS === undefined) guessed++;
      else seconds[a]![b] = drivingS + roads.arrivingS;
    });
  });
  const why = asked.failure === undefined ? "knows no way there" : failureWords(asked.failure);
  const count = guessed === 1 ? "1 way is" : `${guessed} ways are`;
  const notes = guessed === 0 ? [] : [`The road service ${why}: ${count} estimated from the distance.`];
  return { seconds, learned: asked.learned, notes };
}

function estimateAll(places: readonly (Coordinates | null)[], roads: RoadProfile): number[][] {
  const mapped = places.flatMap((place, number) => (place === null ? [] : [{ place, number }]));
  const estimate = estimateTravelSeconds(
    mapped.map(({ place }) => place),
    roads,
  );
  const seconds = places.map((_, a) => places.map((_, b) => (a === b ? 0 : UNMAPPED_S)));
  mapped.forEach(({ number: a }, i) => {
    mapped.forEach(({ number: b }, j) => {
      seconds[a]![b] = estimate[i]![j]!;
    });
  });
  return seconds;
}

/** Asks in blocks, a question at a time, and stops at the first that fails. */
async function askMissing(
  service: RoadService,
  cells: readonly Cell[],
  ways: ReadonlyMap<string, number>,
): Promise<{ learned: Leg[]; failure?: RoadServiceFailure }> {
  const isMissing = (from: Cell, to: Cell) => keyOf(from) !== keyOf(to) && !ways.has(wayKey(from, to));
  const signal = AbortSignal.timeout(service.timeoutMs);
  const learned: Leg[] = [];
  for (const sources of inBlocks(cells.filter((from) => cells.some((to) => isMissing(from, to)))))
    for (const targets of inBlocks(cells.filter((to) => sources.some((from) => isMissing(from, to))))) {
      const answer = await askRoadService(service, sources.map(coordinatesOf), targets.map(coordinatesOf), signal);
      if (!answer.ok) return { learned, failure: answer.error };
      answer.value.forEach((row, i) => {
        row.forEach((drivingS, j) => {
          const [from, to] = [sources[i]!, targets[j]!];
          if (drivingS !== null && isMissing(from, to)) learned.push({ from, to, seconds: Math.round(drivingS) });
        });
      });
    }
  return { learned };
}

function inBlocks<T>(all: readonly T[]): T[][] {
  const blocks: T[][] = [];
  for (let at = 0; at < all.length; at += PLACES_A_SIDE) blocks.push(all.slice(at, at + PLACES_A_SIDE));
  return blocks;
}

const keyOf = ({ lat, lon }: Cell) => `${lat},${lon}`;
const wayKey = (from: Cell, to: Cell) => `${keyOf(from)} ${keyOf(to)}`;
const coordinatesOf = ({ lat, lon }: Cell): Coordinates => ({
  latitudeDeg: lat / DEGREE_PARTS,
  longitudeDeg: lon / DEGREE_PARTS,
});

function failureWords(failure: RoadServiceFailure): string {
  switch (failure.code) {
    case "too-late":
      return "did not answer in time";
    case "unreachable":
      return "cannot be reached";
    case "refused":
      return `refused (status ${failure.status})`;
    case "malformed-answer":
      return `gave an answer that cannot be used (${failure.says})`;
  }
}
