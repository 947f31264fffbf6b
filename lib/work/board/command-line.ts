import type { Board, BoardVisit } from "./board";
import { clockOf, isMovable, isPlaced } from "./board";

/** What a line typed at the board can come to; the value is what a list keeps, the label what is read. */
export type LineCommand =
  | { readonly do: "go"; readonly id: string }
  | { readonly do: "place"; readonly id: string }
  | { readonly do: "person"; readonly id: string }
  | { readonly do: "away"; readonly id: string }
  | { readonly do: "plan" }
  | { readonly do: "undo" };

export interface Suggestion {
  readonly command: LineCommand;
  readonly label: string;
  readonly detail: string;
}

const MOST = 12;
const VERBS = {
  place: /^place\b\s*/i,
  away: /^(?:away|absent)\b\s*/i,
  plan: /^plan\b/i,
  undo: /^undo\b/i,
};

/** What a line may mean, the likeliest first: "place 1043", "away Ines", "plan", "undo", a customer, a number, a technician. */
export function suggestCommands(board: Board, line: string): readonly Suggestion[] {
  const text = line.trim();
  if (text === "") return general();
  if (VERBS.place.test(text)) {
    const asked = text.replace(VERBS.place, "");
    const open = board.visits.filter((visit) => isMovable(visit) && matchesVisit(visit, asked));
    return open
      .sort((a, b) => Number(isPlaced(a)) - Number(isPlaced(b)))
      .slice(0, MOST)
      .map((visit) => placing(board, visit));
  }
  if (VERBS.away.test(text)) {
    const asked = text.replace(VERBS.away, "");
    return board.people
      .filter(({ name }) => startsWords(name, asked))
      .slice(0, MOST)
      .map(leaving);
  }
  const started = general().filter(({ label }) => label.toLowerCase().startsWith(text.toLowerCase()));
  const people = board.people
    .filter(({ name }) => startsWords(name, text))
    .flatMap((person): Suggestion[] => [
      { command: { do: "person", id: person.id }, label: person.name, detail: "Show this person's row" },
      leaving(person),
    ]);
  const visits = board.visits.filter((visit) => matchesVisit(visit, text)).map((visit) => going(board, visit));
  return [...started, ...people, ...visits].slice(0, MOST);
}

const general = (): Suggestion[] => [
  {
    command: { do: "plan" },
    label: "Plan the rest of the day",
    detail: "A proposal; nothing moves before you accept it",
  },
  { command: { do: "undo" }, label: "Undo my last change", detail: "" },
];

const going = (board: Board, visit: BoardVisit): Suggestion => ({
  command: { do: "go", id: visit.id },
  label: `${visit.label}, ${visit.customer}`,
  detail: whereWords(board, visit),
});

const placing = (board: Board, visit: BoardVisit): Suggestion => ({
  command: { do: "place", id: visit.id },
  label: `Place ${visit.label.toLowerCase()}, ${visit.customer}`,
  detail: whereWords(board, visit),
});

const leaving = ({ id, name }: { readonly id: string; readonly name: string }): Suggestion => ({
  command: { do: "away", id },
  label: `Away: ${name}`,
  detail: "From now, or the whole day, and what becomes of the visits",
});

function whereWords(board: Board, visit: BoardVisit): string {
  if (!isPlaced(visit)) return `Without a place, ${visit.city}`;
  const names = board.people.filter(({ id }) => visit.people.includes(id)).map(({ name }) => name);
  return `${clockOf(board.days, visit.startMs)} ${names.join(" and ")}, ${visit.city}`;
}

/** A number is a call's or an order's; anything else the beginning of a word of the customer or the place. */
function matchesVisit(visit: BoardVisit, asked: string): boolean {
  const text = asked.trim();
  if (text === "") return true;
  if (/^\d+$/.test(text)) return visit.label.endsWith(` ${text}`) || String(visit.callNumber) === text;
  return startsWords(`${visit.customer} ${visit.city}`, text) || visit.label.toLowerCase() === text.toLowerCase();
}

/** Whether each word asked for begins a word of the text, in any order. */
export function startsWords(text: string, asked: string): boolean {
  const words = text.toLowerCase().split(/\s+/);
  return asked
    .toLowerCase()
    .split(/\s+/)
    .filter(Boolean)
    .every((part) => words.some((word) => word.startsWith(part)));
}
