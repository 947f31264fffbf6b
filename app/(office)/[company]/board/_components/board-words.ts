import type { Board, BoardVisit } from "@/lib/work/board/board";
import { isPlaced } from "@/lib/work/board/board";
import { startsWords } from "@/lib/work/board/command-line";
import { urgencies } from "@/lib/work/words";

const rank = (urgency: string) => urgencies.indexOf(urgency as (typeof urgencies)[number]);

/** What has no place yet, the most urgent first, then the earliest promise. */
export function listUnplaced({ visits }: Board): readonly BoardVisit[] {
  return visits
    .filter((visit) => !isPlaced(visit) && visit.state === "planned")
    .sort((a, b) => rank(a.urgency) - rank(b.urgency) || latest(a) - latest(b) || a.callNumber - b.callNumber);
}

/** Before what a visit has to be begun, as far as anything says so. */
const latest = ({ window, dueByMs }: BoardVisit) => window?.fromMs ?? dueByMs ?? Number.MAX_SAFE_INTEGER;

/** Which people a filter leaves, and which visits it dims: by a person's name, else by what the visits are called. */
export function filterBoard(board: Board, find: string, atWorkOnly: boolean) {
  const asked = find.trim();
  const atWork = board.people.filter(({ days }) => !atWorkOnly || days.some(({ shift }) => shift !== null));
  if (asked === "") return { people: atWork, dimmed: null };
  const named = atWork.filter(({ name }) => startsWords(name, asked));
  if (named.length > 0) return { people: named, dimmed: null };
  const found = board.visits.filter((visit) => startsWords(`${visit.customer} ${visit.city} ${visit.label}`, asked));
  const on = new Set(found.flatMap(({ people }) => people));
  const kept = new Set(found.map(({ id }) => id));
  return {
    people: atWork.filter(({ id }) => on.has(id)),
    dimmed: new Set(board.visits.filter(({ id }) => !kept.has(id)).map(({ id }) => id)),
  };
}

/** The board as it will be once a command is carried out, to be shown until it is. */
export function withPlace(board: Board, id: string, change: Partial<BoardVisit>): Board {
  return { ...board, visits: board.visits.map((visit) => (visit.id === id ? { ...visit, ...change } : visit)) };
}

/** Said wherever a proposal no longer fits the board it was made for; `what` names what changed. */
export const computedAnew = (what?: string) => `The board changed meanwhile${what ? ` (${what})` : ""}. Computed anew.`;
