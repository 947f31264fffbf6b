import { clockAt, whenAt, windowAt } from "@/lib/work/site-time";
import type { Said, VisitFacts } from "./what-to-tell";

/** Everything a message to a customer may speak of. */
export interface MessageMatter {
  readonly said: Said;
  readonly facts: VisitFacts;
  readonly companyName: string;
  readonly orderNumber: number;
  readonly siteName: string;
  /** The site's clock. */
  readonly timeZone: string;
  readonly firstNames: readonly string[];
  /** Where the state can be looked up. */
  readonly link: string;
}

export interface MessageText {
  readonly subject: string;
  readonly body: string;
}

/** The words of a message. The link stands in for `{link}`, which is filled in at sending: the kept text does not open the page. */
export function wordMessage(matter: MessageMatter): MessageText {
  const { said, companyName, orderNumber, siteName } = matter;
  const what = `work order ${orderNumber} (${siteName})`;
  const { subject, lines } = { promise, change, cancelled, "on-the-way": onTheWay }[said](matter, what);
  const body = [
    "Good day,",
    ...lines,
    `How it stands, at any time: ${matter.link}`,
    companyName,
    "You get this because you agreed to be written to about visits. Tell the office, and no more will come.",
  ].join("\n\n");
  return { subject: `${companyName}: ${subject}`, body };
}

type Worded = { readonly subject: string; readonly lines: readonly string[] };

function promise(matter: MessageMatter, what: string): Worded {
  const when = whenWords(matter.facts, matter.timeZone);
  return { subject: `visit ${when}`, lines: [`We come ${when} for ${what}.${comes(matter)}`] };
}

function change(matter: MessageMatter, what: string): Worded {
  const { facts, timeZone } = matter;
  if (facts.window === null && facts.startMs === null)
    return {
      subject: "the time of our visit no longer holds",
      lines: [`The time we gave you for ${what} no longer holds. We write again as soon as there is a new one.`],
    };
  if (facts.window !== null && facts.startMs !== null)
    return {
      subject: "we cannot keep the time we promised",
      lines: [
        `We promised to come ${whenWords({ ...facts, startMs: null }, timeZone)} for ${what}. We expect to come ${about(facts.startMs, timeZone)} instead. We are sorry.${comes(matter)}`,
      ],
    };
  const when = whenWords(facts, timeZone);
  return { subject: `our visit is now ${when}`, lines: [`Our visit for ${what} is now ${when}.${comes(matter)}`] };
}

function cancelled(_matter: MessageMatter, what: string): Worded {
  return {
    subject: "our visit is cancelled",
    lines: [`Our visit for ${what} is cancelled. If this comes as a surprise, please call us.`],
  };
}

function onTheWay(matter: MessageMatter, what: string): Worded {
  return {
    subject: "we are on the way",
    lines: [`${listWords(matter.firstNames) || "Our technician"} is on the way to you for ${what}.`],
  };
}

/** The time as it is told: the window, or about when. */
export function whenWords({ window, startMs }: VisitFacts, timeZone: string): string {
  if (startMs !== null) return about(startMs, timeZone);
  return window === null ? "" : windowAt(new Date(window.fromMs), new Date(window.toMs), timeZone);
}

function about(startMs: number, timeZone: string): string {
  const quarter = new Date(Math.round(startMs / 900_000) * 900_000);
  return `${whenAt(quarter, timeZone).replace(`, ${clockAt(quarter, timeZone)}`, "")}, about ${clockAt(quarter, timeZone)}`;
}

const comes = ({ firstNames }: MessageMatter) =>
  firstNames.length === 0 ? "" : ` ${listWords(firstNames)} ${firstNames.length === 1 ? "comes" : "come"}.`;

export function listWords(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** How somebody is called in front of a customer. */
export const firstNameOf = (name: string) => name.trim().split(/\s+/)[0] ?? "";
