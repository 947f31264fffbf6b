import { ON_CALL, TWO_PEOPLE } from "@/lib/dispatch";
import type { LackKind } from "../day/visit-demands";
import { type BoardPerson, type BoardVisit, clockOf, dayIndexOf, endMs, isMovable, minutesWords } from "./board";
import { type BoardIndex, type Placed, wayMs } from "./board-index";

export type MisfitKind =
  | LackKind
  | "begun"
  | "not-at-work"
  | "rides-along"
  | "two-people"
  | "on-call"
  | "part"
  | "too-many"
  | "window"
  | "shift"
  | "overlap"
  | "travel"
  | "past";

/** Why a visit does not fit at a place, in words that stand alone. */
export interface Misfit {
  readonly kind: MisfitKind;
  readonly words: string;
}

const ASKED: ReadonlySet<MisfitKind> = new Set(["window", "shift", "overlap", "travel", "past", "too-many"]);

/** What no dispatcher may do with a drop; the rest of the misfits are theirs to decide, knowingly. */
export function isRefused({ kind }: Misfit): boolean {
  return !ASKED.has(kind);
}

export interface Place {
  readonly personId: string;
  readonly startMs: number;
}

/** Everything that keeps a visit from being at a place, the gravest first; none where it fits. */
export function judgeFit(index: BoardIndex, visit: BoardVisit, { personId, startMs }: Place): readonly Misfit[] {
  const { board } = index;
  const d = dayIndexOf(board.days, startMs);
  const person = index.person.get(personId);
  if (person === undefined || d < 0) return [{ kind: "not-at-work", words: "There is no such place on this board." }];
  const lasting = listLasting(index, visit, person, d);
  return lasting.some(isRefused) ? lasting : [...lasting, ...listTimely(index, visit, person, d, startMs)];
}

/** What holds for a person all day, whatever the hour. */
export function listLasting(index: BoardIndex, visit: BoardVisit, person: BoardPerson, d: number): readonly Misfit[] {
  if (!isMovable(visit)) return [{ kind: "begun", words: `${visit.label} has begun and stays where it is.` }];
  const { name } = person;
  const day = person.days[d]!;
  if (day.ridesWith !== null) {
    const lead = index.person.get(day.ridesWith)?.name ?? "somebody else";
    return [{ kind: "rides-along", words: `${name} rides with ${lead}: place it there.` }];
  }
  if (day.shift === null) return [{ kind: "not-at-work", words: `${name} ${day.absent}.` }];
  const misfits: Misfit[] = [];
  for (const demand of visit.demands) {
    const lack = day.lacks[demand];
    if (lack) misfits.push({ kind: lack.kind, words: `${name} ${lack.words}.` });
    else if (day.skills.includes(demand)) continue;
    else if (demand === TWO_PEOPLE)
      misfits.push({ kind: "two-people", words: `It needs two people; ${name} is alone.` });
    else if (demand === ON_CALL) misfits.push({ kind: "on-call", words: `${name} is not on call.` });
  }
  const others = index.stopsOf(person.id, d).filter(({ id }) => id !== visit.id);
  const part = lackingPart(person, visit, others);
  if (part) misfits.push({ kind: "part", words: `${name} has no ${part} left on the van.` });
  if (person.maxVisits !== null && others.length >= person.maxVisits)
    misfits.push({
      kind: "too-many",
      words: `${name} has ${others.length} visits already, ${person.maxVisits} at most.`,
    });
  return misfits;
}

function lackingPart({ stock }: BoardPerson, visit: BoardVisit, others: readonly Placed[]): string | undefined {
  if (stock === null) return undefined;
  return Object.entries(visit.parts).find(([part, quantity]) => {
    const used = others.reduce((sum, other) => sum + (other.parts[part] ?? 0), 0);
    return quantity > 0 && used + quantity > (stock[part] ?? 0) + 1e-6;
  })?.[0];
}

function listTimely(index: BoardIndex, visit: BoardVisit, person: BoardPerson, d: number, startMs: number): Misfit[] {
  const { board } = index;
  const clock = (ms: number) => clockOf(board.days, ms);
  const { window } = visit;
  const finishMs = endMs({ startMs, minutes: visit.minutes });
  const others = index.stopsOf(person.id, d).filter(({ id }) => id !== visit.id);
  const misfits: Misfit[] = [];
  const crossing = others.find((other) => other.startMs < finishMs && endMs(other) > startMs);
  if (crossing)
    misfits.push({
      kind: "overlap",
      words: `${person.name} is at ${crossing.label} from ${clock(crossing.startMs)} to ${clock(endMs(crossing))}.`,
    });
  if (window && (startMs < window.fromMs || startMs > window.toMs)) {
    const late = startMs > window.toMs;
    const minutes = minutesWords((late ? startMs - window.toMs : window.fromMs - startMs) / 60_000);
    misfits.push({
      kind: "window",
      words: `${minutes} ${late ? "after" : "before"} its promise, ${clock(window.fromMs)} to ${clock(window.toMs)}.`,
    });
  }
  if (!crossing) misfits.push(...listWays(index, visit, person, d, startMs, others));
  if (board.today === d && startMs < board.nowMs - 5 * 60_000)
    misfits.push({ kind: "past", words: `It is ${clock(board.nowMs)} already.` });
  return misfits;
}

/** The ways before and after, and the shift around them. */
function listWays(
  { board }: BoardIndex,
  visit: BoardVisit,
  person: BoardPerson,
  d: number,
  startMs: number,
  others: readonly Placed[],
): Misfit[] {
  const clock = (ms: number) => clockOf(board.days, ms);
  const shift = person.days[d]!.shift!;
  const finishMs = endMs({ startMs, minutes: visit.minutes });
  const before = latestEnding(others.filter((other) => endMs(other) <= startMs));
  const after = others.find((other) => other.startMs >= finishMs);
  const misfits: Misfit[] = [];
  const tight = (needMs: number, haveMs: number, words: string) => {
    if (needMs > haveMs)
      misfits.push({
        kind: "travel",
        words: `The way ${words} takes ${minutesWords(needMs / 60_000)}; there are ${minutesWords(haveMs / 60_000)}.`,
      });
  };
  if (before) tight(wayMs(board, before.at, visit.at), startMs - endMs(before), `from ${before.label}`);
  const reachMs = shift.fromMs + (before ? 0 : wayMs(board, person.base, visit.at));
  if (startMs < reachMs)
    misfits.push({ kind: "shift", words: `${person.name} can be there at ${clock(reachMs)} at the earliest.` });
  if (after) tight(wayMs(board, visit.at, after.at), after.startMs - finishMs, `to ${after.label}`);
  const homeMs = after ? 0 : person.endsAtBase ? wayMs(board, visit.at, person.base) : 0;
  if (finishMs + homeMs > shift.latestMs)
    misfits.push({
      kind: "shift",
      words: `${person.name} would be done at ${clock(finishMs + homeMs)}; the day ends at ${clock(shift.latestMs)}.`,
    });
  return misfits;
}

export interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}

/** From when to when a visit could start with a person on a day without anything amiss; everything else stays. */
export function listFittingStarts(index: BoardIndex, visit: BoardVisit, personId: string, d: number): readonly Span[] {
  const { board } = index;
  const person = index.person.get(personId)!;
  if (listLasting(index, visit, person, d).length > 0) return [];
  const shift = person.days[d]!.shift!;
  const lastsMs = visit.minutes * 60_000;
  const others = index.stopsOf(personId, d).filter(({ id }) => id !== visit.id);
  const earliestMs = Math.max(
    visit.window?.fromMs ?? 0,
    board.today === d ? board.nowMs - 5 * 60_000 : 0,
    shift.fromMs,
  );
  const latestMs = Math.min(visit.window?.toMs ?? Number.POSITIVE_INFINITY, shift.latestMs - lastsMs);
  const spans: Span[] = [];
  let busyUntilMs = 0;
  for (let i = 0; i <= others.length; i++) {
    const [before, after] = [others[i - 1], others[i]];
    if (before) busyUntilMs = Math.max(busyUntilMs, endMs(before));
    const previous = latestEnding(others.slice(0, i));
    const fromMs = previous
      ? Math.max(earliestMs, busyUntilMs + wayMs(board, previous.at, visit.at))
      : Math.max(earliestMs, shift.fromMs + wayMs(board, person.base, visit.at));
    const toMs = after
      ? Math.min(latestMs, after.startMs - lastsMs - wayMs(board, visit.at, after.at))
      : Math.min(latestMs, shift.latestMs - lastsMs - (person.endsAtBase ? wayMs(board, visit.at, person.base) : 0));
    if (fromMs <= toMs) spans.push({ fromMs, toMs });
  }
  return spans;
}

function latestEnding(stops: readonly Placed[]): Placed | undefined {
  return stops.reduce<Placed | undefined>((last, stop) => (last && endMs(last) > endMs(stop) ? last : stop), undefined);
}
