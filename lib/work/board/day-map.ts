import type { Coordinates } from "@/lib/dispatch";
import { type Board, type BoardVisit, isPlaced } from "./board";
import { indexBoard } from "./board-index";

export interface MapPoint {
  readonly x: number;
  readonly y: number;
}

/** One person's way through the day: from the base over the stops in their order, and home. */
export interface MapRoute {
  readonly personId: string;
  readonly name: string;
  readonly way: readonly MapPoint[];
  readonly stops: readonly { readonly visit: BoardVisit; readonly point: MapPoint }[];
}

export interface DayMap {
  readonly width: number;
  readonly height: number;
  readonly routes: readonly MapRoute[];
  /** On the map, but with nobody to go yet. */
  readonly open: readonly { readonly visit: BoardVisit; readonly point: MapPoint }[];
  /** Nobody has put these on the map. */
  readonly unmapped: readonly BoardVisit[];
  /** A round number of km and how long it is drawn. */
  readonly bar: { readonly km: number; readonly length: number };
}

const WIDTH = 1000;
const MARGIN = 40;
const TALLEST = 900;
const LOWEST = 300;
const KM_A_DEGREE = 111.195; // mean Earth radius 6371.0088 km, as in the travel estimate
const NICE_KM = [0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500];

/**
 * The board's first day as a plan without streets, north up, true to scale at its middle.
 * @source equirectangular projection with the standard parallel at the middle latitude
 */
export function drawDayMap(board: Board): DayMap {
  const index = indexBoard(board);
  const routes = board.people.flatMap((person) => {
    const stops = index.stopsOf(person.id, 0);
    return stops.length > 0 && person.days[0]!.ridesWith === null ? [{ person, stops }] : [];
  });
  const open = board.visits.filter((visit) => !isPlaced(visit) && visit.state === "planned");
  const shown = [...routes.flatMap(({ stops }) => stops), ...open];
  const places = [...shown.flatMap(({ at }) => at ?? []), ...routes.flatMap(({ person }) => person.base ?? [])];
  const { project, height, kmLength } = projectionOf(places);
  return {
    width: WIDTH,
    height,
    routes: routes.map(({ person, stops }) => {
      const drawn = stops.flatMap((visit) => (visit.at ? [{ visit, point: project(visit.at) }] : []));
      const base = person.base ? [project(person.base)] : [];
      const way = [...base, ...drawn.map(({ point }) => point), ...(person.endsAtBase ? base : [])];
      return { personId: person.id, name: person.name, way, stops: drawn };
    }),
    open: open.flatMap((visit) => (visit.at ? [{ visit, point: project(visit.at) }] : [])),
    unmapped: shown.filter(({ at }) => at === null),
    bar: barOf(kmLength),
  };
}

function projectionOf(places: readonly Coordinates[]) {
  const [south, north] = spanOf(places.map(({ latitudeDeg }) => latitudeDeg));
  const [west, east] = spanOf(places.map(({ longitudeDeg }) => longitudeDeg));
  const narrowing = Math.cos((((south + north) / 2) * Math.PI) / 180);
  const [wideKm, highKm] = [(east - west) * KM_A_DEGREE * narrowing, (north - south) * KM_A_DEGREE];
  const kmLength = Math.min((WIDTH - 2 * MARGIN) / wideKm, (TALLEST - 2 * MARGIN) / highKm);
  const height = Math.max(LOWEST, Math.round(highKm * kmLength + 2 * MARGIN));
  const [left, top] = [(WIDTH - wideKm * kmLength) / 2, (height - highKm * kmLength) / 2];
  const project = ({ latitudeDeg, longitudeDeg }: Coordinates): MapPoint => ({
    x: left + (longitudeDeg - west) * KM_A_DEGREE * narrowing * kmLength,
    y: top + (north - latitudeDeg) * KM_A_DEGREE * kmLength,
  });
  return { project, height, kmLength };
}

/** From the least to the greatest, at least a kilometre apart so that one place alone can be drawn. */
function spanOf(values: readonly number[]): readonly [number, number] {
  if (values.length === 0) return [0, 0.01];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const spare = Math.max(0, 0.01 - (most - least)) / 2;
  return [least - spare, most + spare];
}

function barOf(kmLength: number): DayMap["bar"] {
  const km = NICE_KM.filter((each) => each * kmLength <= WIDTH / 4).at(-1) ?? NICE_KM[0]!;
  return { km, length: km * kmLength };
}
