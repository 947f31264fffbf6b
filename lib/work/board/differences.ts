import { type Board, type BoardVisit, clockOf, dayIndexOf, endMs, isPlaced, minutesWords } from "./board";
import { type BoardIndex, indexBoard, wayMs } from "./board-index";
import { judgeFit } from "./fit";

export interface PlannedPlace {
  readonly people: readonly string[];
  readonly startMs: number;
}

/** One visit that a proposal changes, in figures and in words. */
export interface Difference {
  readonly kind: "moved" | "new" | "dropped";
  readonly visit: "visit" | "call";
  readonly id: string;
  readonly version: number;
  readonly customer: string;
  readonly minutes: number;
  readonly from: PlannedPlace | null;
  readonly to: PlannedPlace | null;
  /** "Work order 12 goes from Tomas to Ines at 10:15, 30 min later." */
  readonly words: string;
  /** What it does to the promise; empty where nothing is promised. */
  readonly promise: string;
  readonly reason: string;
  /** Whether the start lies outside its promise afterwards. */
  readonly breaksPromise: boolean;
}

/** What a plan would change on the board, visit by visit; what it leaves as it is does not appear. */
export function listDifferences(
  board: Board,
  after: ReadonlyMap<string, PlannedPlace | null>,
  openReasons: ReadonlyMap<string, string>,
): readonly Difference[] {
  const index = indexBoard(board);
  const changed = board.visits.filter((visit) => after.has(visit.id) && isChanged(visit, after.get(visit.id)!));
  const planned = withPlaces(board, after);
  const afterwards = indexBoard(planned);
  const saved = drivingMinutes(board, board) - drivingMinutes(board, planned);
  return changed.map((visit): Difference => {
    const to = after.get(visit.id) ?? null;
    const from = isPlaced(visit) ? { people: visit.people, startMs: visit.startMs } : null;
    return {
      kind: from === null ? "new" : to === null ? "dropped" : "moved",
      visit: visit.kind,
      id: visit.id,
      version: visit.version,
      customer: visit.customer,
      minutes: visit.minutes,
      from,
      to,
      words: moveWords(board, visit, from, to),
      promise: promiseWords(visit, from, to),
      reason: reasonOf(index, visit, from, to, { after, afterwards, changed, saved, open: openReasons.get(visit.id) }),
      breaksPromise: to !== null && outsideMinutes(visit, to) !== 0,
    };
  });
}

function isChanged(visit: BoardVisit, to: PlannedPlace | null): boolean {
  if (to === null) return isPlaced(visit);
  if (!isPlaced(visit)) return true;
  const samePeople = [...visit.people].sort().join() === [...to.people].sort().join();
  return !samePeople || Math.abs(visit.startMs - to.startMs) >= 60_000;
}

function moveWords(board: Board, visit: BoardVisit, from: PlannedPlace | null, to: PlannedPlace | null): string {
  const clock = (ms: number) => clockOf(board.days, ms);
  const names = (place: PlannedPlace) =>
    place.people.map((id) => board.people.find((person) => person.id === id)?.name ?? "somebody").join(" and ");
  const what = `${visit.label}, ${visit.customer},`;
  if (to === null) return `${what} loses its place (${names(from!)}, ${clock(from!.startMs)}).`;
  if (from === null) return `${what} goes to ${names(to)} at ${clock(to.startMs)}.`;
  const minutes = Math.round((to.startMs - from.startMs) / 60_000);
  const shift = minutes === 0 ? "" : `, ${minutesWords(Math.abs(minutes))} ${minutes > 0 ? "later" : "earlier"}`;
  return names(from) === names(to)
    ? `${what} stays with ${names(to)} and starts at ${clock(to.startMs)}${shift}.`
    : `${what} goes from ${names(from)} to ${names(to)} at ${clock(to.startMs)}${shift}.`;
}

/** Minutes by which a start lies before (negative) or after its promise; 0 inside, or where there is none. */
function outsideMinutes({ window }: BoardVisit, { startMs }: PlannedPlace): number {
  if (window === null) return 0;
  if (startMs > window.toMs) return Math.round((startMs - window.toMs) / 60_000);
  return startMs < window.fromMs ? -Math.round((window.fromMs - startMs) / 60_000) : 0;
}

function promiseWords(visit: BoardVisit, from: PlannedPlace | null, to: PlannedPlace | null): string {
  if (visit.window === null) return "";
  const [was, is] = [from && outsideMinutes(visit, from), to && outsideMinutes(visit, to)];
  const side = (minutes: number) => `${minutesWords(Math.abs(minutes))} ${minutes > 0 ? "late" : "early"}`;
  if (is === null) return "Its promise is broken.";
  if (is !== 0)
    return was ? `Its promise: ${side(was)} before, ${side(is)} now.` : `Its promise is broken: ${side(is)}.`;
  return was ? `Its promise is kept again (it was ${side(was)}).` : "Its promise is kept.";
}

interface Around {
  readonly after: ReadonlyMap<string, PlannedPlace | null>;
  readonly afterwards: BoardIndex;
  readonly changed: readonly BoardVisit[];
  /** Minutes of driving the whole plan saves. */
  readonly saved: number;
  readonly open: string | undefined;
}

/** Why, as far as it can be known: what is amiss where it stands, what takes its time, the stop before it, or driving. */
function reasonOf(
  index: BoardIndex,
  visit: BoardVisit,
  from: PlannedPlace | null,
  to: PlannedPlace | null,
  around: Around,
): string {
  if (from === null) return "It had no place.";
  const [amiss] = from.people.flatMap((personId) => judgeFit(index, visit, { personId, startMs: from.startMs }));
  if (amiss) return amiss.words;
  if (to === null) return around.open ? `${around.open[0]!.toUpperCase()}${around.open.slice(1)}.` : "";
  const taker = around.changed.find((other) => {
    const place = around.after.get(other.id);
    if (other.id === visit.id || !place || !place.people.some((person) => from.people.includes(person))) return false;
    const wayBetween = wayMs(index.board, other.at, visit.at);
    const until = endMs({ startMs: place.startMs, minutes: other.minutes }) + wayBetween;
    return (
      place.startMs - wayBetween < endMs({ startMs: from.startMs, minutes: visit.minutes }) && until > from.startMs
    );
  });
  if (taker) return `Makes room for ${taker.label}.`;
  const before = neighboursOf(around.afterwards, visit, to).before;
  if (before && around.changed.some(({ id }) => id === before.id)) return `Follows ${before.label}, which changes too.`;
  const shorter = detourMinutes(index, visit, from) - detourMinutes(around.afterwards, visit, to);
  if (shorter >= 1) return `${minutesWords(shorter)} less driving to it and on from it.`;
  return around.saved >= 1
    ? `Part of a plan with ${minutesWords(around.saved)} less driving.`
    : "Fits the rest of the plan.";
}

/** The stops before and after a visit where it stands on its first person's day. */
function neighboursOf(index: BoardIndex, visit: BoardVisit, { people, startMs }: PlannedPlace) {
  const stops = index.stopsOf(people[0]!, dayIndexOf(index.board.days, startMs));
  const p = stops.findIndex(({ id }) => id === visit.id);
  return { before: p > 0 ? stops[p - 1] : undefined, next: p >= 0 ? stops[p + 1] : undefined };
}

/** What going by this visit adds to its first person's driving, in minutes. */
function detourMinutes(index: BoardIndex, visit: BoardVisit, place: PlannedPlace): number {
  const { board } = index;
  const person = index.person.get(place.people[0]!);
  const { before, next } = neighboursOf(index, visit, place);
  const from = before === undefined ? (person?.base ?? null) : before.at;
  const toIt = wayMs(board, from, visit.at);
  if (next === undefined && !person?.endsAtBase) return Math.round(toIt / 60_000);
  const on = next === undefined ? (person?.base ?? null) : next.at;
  return Math.round((toIt + wayMs(board, visit.at, on) - wayMs(board, from, on)) / 60_000);
}

function withPlaces(board: Board, after: ReadonlyMap<string, PlannedPlace | null>): Board {
  const visits = board.visits.map((visit) => {
    if (!after.has(visit.id)) return visit;
    const place = after.get(visit.id) ?? null;
    return { ...visit, startMs: place?.startMs ?? null, people: place?.people ?? [] };
  });
  return { ...board, visits };
}

/** Driving of everybody on the board's first day, there and home, in minutes. */
function drivingMinutes({ people }: Board, board: Board): number {
  const index = indexBoard(board);
  let ms = 0;
  for (const person of people) {
    const stops = index.stopsOf(person.id, 0);
    if (stops.length === 0 || person.days[0]!.ridesWith !== null) continue;
    let at = person.base;
    for (const stop of stops) {
      ms += wayMs(board, at, stop.at);
      at = stop.at;
    }
    if (person.endsAtBase) ms += wayMs(board, at, person.base);
  }
  return Math.round(ms / 60_000);
}
