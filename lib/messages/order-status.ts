import type { VisitFacts } from "./what-to-tell";
import { listWords, whenWords } from "./words";

export interface OrderFacts {
  readonly number: number;
  readonly state: string;
  /** The site's clock. */
  readonly timeZone: string;
  readonly visits: readonly {
    readonly state: string;
    readonly facts: VisitFacts;
    readonly firstNames: readonly string[];
  }[];
}

/** What a customer reads: a state with its shape, a sentence, the time and who comes. */
export interface OrderStatus {
  readonly number: number;
  readonly state: "proven" | "working" | "waiting" | "needs-you" | "refused";
  readonly title: string;
  readonly words: string;
  readonly when: string;
  /** First names. */
  readonly who: string;
  readonly timeZone: string;
}

/** The order as its customer may see it: of several visits the one under way, else the next, else the last. */
export function orderStatus({ number, state, timeZone, visits }: OrderFacts, now: Date): OrderStatus {
  const head = { number, timeZone, when: "", who: "" };
  if (state === "done")
    return { ...head, state: "proven", title: "Done", words: "The work of this order is finished." };
  if (state === "cancelled") return { ...head, state: "refused", title: "Cancelled", words: CALL_US };
  const visit = chosenVisit(visits);
  if (!visit || visit.state === "cancelled")
    return { ...head, state: "waiting", title: "No time yet", words: "We have your order and are looking for a time." };
  const when = whenWords(visit.facts, timeZone);
  const told = { ...head, when, who: listWords(visit.firstNames) };
  switch (visit.state) {
    case "on-the-way":
      return { ...told, state: "working", title: "On the way", words: "We are on the way to you." };
    case "on-site":
      return { ...told, state: "working", title: "Here", words: "We are at work with you." };
    case "left-for-today":
      return { ...told, when: "", state: "waiting", title: "To be continued", words: "We come again to finish it." };
    case "done":
      return { ...told, when: "", state: "proven", title: "Visit done", words: "The visit is over." };
    default:
      return planned(told, visit.facts, now);
  }
}

type Told = Omit<OrderStatus, "state" | "title" | "words">;

function planned(told: Told, { window, startMs }: VisitFacts, now: Date): OrderStatus {
  if (window === null && startMs === null)
    return { ...told, state: "waiting", title: "No time yet", words: "We have your order and are looking for a time." };
  const endMs = Math.max(window?.toMs ?? 0, startMs ?? 0);
  if (endMs < now.getTime())
    return { ...told, state: "needs-you", title: "Late", words: `We should have been with you by now. ${CALL_US}` };
  if (window !== null && startMs !== null)
    return {
      ...told,
      state: "needs-you",
      title: "At another time than promised",
      words: `We promised ${whenWords({ cancelled: false, window, startMs: null }, told.timeZone)} and cannot keep it. We are sorry.`,
    };
  return { ...told, state: "waiting", title: "Planned", words: "We come to you at this time." };
}

const CALL_US = "If this comes as a surprise, please call us.";
const ORDER = ["on-site", "on-the-way", "planned", "left-for-today", "done", "cancelled"];

function chosenVisit(visits: OrderFacts["visits"]): OrderFacts["visits"][number] | undefined {
  const at = ({ facts }: OrderFacts["visits"][number]) =>
    facts.startMs ?? facts.window?.fromMs ?? Number.MAX_SAFE_INTEGER;
  return [...visits].sort((a, b) => ORDER.indexOf(a.state) - ORDER.indexOf(b.state) || at(a) - at(b))[0];
}
