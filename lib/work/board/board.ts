import type { Coordinates, RoadProfile } from "@/lib/dispatch";
import type { Lack } from "../day/visit-demands";

/* What the dispatcher's board shows, as plain values that travel to the browser. Instants are milliseconds since the epoch. */

export interface BoardDay {
  readonly day: string;
  /** Twelve hours before the day's noon: clock times count from here, on days of 23 and 25 hours too. */
  readonly originMs: number;
  readonly words: string;
}

/** How one person stands on one day. */
export interface PersonDay {
  /** Null: cannot be sent, and `absent` says why in words that go after the name. */
  readonly shift: { readonly fromMs: number; readonly toMs: number; readonly latestMs: number } | null;
  readonly absent: string;
  /** Whose van this person rides in; null: their own. */
  readonly ridesWith: string | null;
  /** Everybody who comes when this person is sent. */
  readonly crew: readonly string[];
  readonly skills: readonly string[];
  readonly lacks: Readonly<Record<string, Lack>>;
}

export interface BoardPerson {
  readonly id: string;
  readonly name: string;
  readonly base: Coordinates | null;
  readonly endsAtBase: boolean;
  readonly stock: Readonly<Record<string, number>> | null;
  readonly maxVisits: number | null;
  /** As many as the board has days. */
  readonly days: readonly PersonDay[];
}

/** What can be put on the board: a visit, or a call that nobody has ordered work for. */
export interface BoardVisit {
  readonly kind: "visit" | "call";
  readonly id: string;
  readonly version: number;
  readonly state: string;
  readonly orderId: string | null;
  /** "Work order 12" or "Call 7". */
  readonly label: string;
  readonly callNumber: number;
  readonly customer: string;
  readonly city: string;
  readonly symptom: string;
  readonly urgency: string;
  readonly at: Coordinates | null;
  readonly startMs: number | null;
  readonly minutes: number;
  readonly people: readonly string[];
  readonly window: { readonly fromMs: number; readonly toMs: number } | null;
  readonly demands: readonly string[];
  readonly parts: Readonly<Record<string, number>>;
  /** What else a dispatcher has to know, in words: its days, the part it waits for. */
  readonly notes?: readonly string[];
  /** Of a call with a last day, the day's begin in UTC. */
  readonly dueByMs?: number | null;
}

export interface Board {
  readonly days: readonly BoardDay[];
  /** Which of the days is today; null: none of them. */
  readonly today: number | null;
  readonly nowMs: number;
  readonly people: readonly BoardPerson[];
  readonly visits: readonly BoardVisit[];
  readonly roads: RoadProfile;
  readonly notes: readonly string[];
}

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;

export const endMs = ({ startMs, minutes }: Pick<BoardVisit, "startMs" | "minutes">) =>
  (startMs ?? 0) + minutes * MINUTE_MS;

export const isPlaced = (visit: BoardVisit): visit is BoardVisit & { startMs: number } =>
  visit.startMs !== null && visit.people.length > 0;

/** Only what has not begun changes hands on the board; who is on the way is called first. */
export const isMovable = ({ state }: Pick<BoardVisit, "state">) => state === "planned";

/** Which of the board's days an instant falls on; -1 when none. */
export function dayIndexOf(days: readonly BoardDay[], ms: number): number {
  return days.findIndex(({ originMs }, d) => ms >= originMs && ms < (days[d + 1]?.originMs ?? originMs + DAY_MS));
}

/** Clock time of an instant on one of the board's days: "08:10". */
export function clockOf(days: readonly BoardDay[], ms: number): string {
  const d = dayIndexOf(days, ms);
  const minutes = Math.round((ms - (days[d]?.originMs ?? days[0]!.originMs)) / MINUTE_MS);
  const [hours, left] = [Math.floor(minutes / 60), ((minutes % 60) + 60) % 60];
  return `${String(((hours % 24) + 24) % 24).padStart(2, "0")}:${String(left).padStart(2, "0")}`;
}

/** "35 min", "2 h 10 min", "3 h". */
export function minutesWords(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  const left = whole % 60;
  return left === 0 ? `${Math.floor(whole / 60)} h` : `${Math.floor(whole / 60)} h ${left} min`;
}
