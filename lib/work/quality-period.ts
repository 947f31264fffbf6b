import { Temporal } from "temporal-polyfill";

export const spans = ["month", "quarter", "year", "all"] as const;
export type Span = (typeof spans)[number];
export const spanWord: Record<Span, string> = { month: "Month", quarter: "Quarter", year: "Year", all: "All" };
const monthsOf: Record<Exclude<Span, "all">, number> = { month: 1, quarter: 3, year: 12 };

/** What a dashboard looks at, as its address says it: jobs closed in whole months up to one. */
export interface QualityQuery {
  readonly span: Span;
  /** The last month, as YYYY-MM. */
  readonly until: string;
  readonly kind: string | null;
}

/** Days as YYYY-MM-DD; `toDay` is the first day after it. */
export interface Period {
  readonly fromDay: string;
  readonly toDay: string;
}

/** Before any job this program could know of. */
const FIRST_MONTH = "2000-01";

type Asked = Readonly<Record<string, string | readonly string[] | undefined>>;

/** Reads the address; what is missing or unreadable becomes the year up to this month. */
export function readQualityQuery(asked: Asked, today: string): QualityQuery {
  const span = spans.find((each) => each === asked.span) ?? "year";
  const thisMonth = today.slice(0, 7);
  const until = typeof asked.until === "string" && isMonth(asked.until) ? asked.until : thisMonth;
  const kind = typeof asked.kind === "string" && /^[a-z_]{1,40}$/.test(asked.kind) ? asked.kind : null;
  return { span, until: earlier(until, thisMonth), kind };
}

function earlier(month: string, other: string): string {
  return [month, other].sort()[0]!;
}

export function isMonth(text: string): boolean {
  return /^\d{4}-(0[1-9]|1[0-2])$/.test(text) && text >= FIRST_MONTH;
}

export function periodOf({ span, until }: Pick<QualityQuery, "span" | "until">): Period {
  const last = Temporal.PlainYearMonth.from(until);
  const first =
    span === "all" ? Temporal.PlainYearMonth.from(FIRST_MONTH) : last.subtract({ months: monthsOf[span] - 1 });
  return {
    fromDay: `${first.toString()}-01`,
    toDay: `${last.add({ months: 1 }).toString()}-01`,
  };
}

/** The period of the same length before (-1) or after (1); null where there is none to go to. */
export function shifted(query: QualityQuery, by: -1 | 1, today: string): QualityQuery | null {
  if (query.span === "all") return null;
  const until = Temporal.PlainYearMonth.from(query.until)
    .add({ months: by * monthsOf[query.span] })
    .toString();
  if (until < FIRST_MONTH || (by === 1 && query.until >= today.slice(0, 7))) return null;
  return { ...query, until: earlier(until, today.slice(0, 7)) };
}

/** The query as it stands in an address; more may be added behind it. */
export function queryText(query: QualityQuery, more: Readonly<Record<string, string>> = {}): string {
  const { span, until, kind } = query;
  return new URLSearchParams({ span, until, ...(kind && { kind }), ...more }).toString();
}

/** "Dec 2025 to Nov 2026". */
export function periodWords(query: QualityQuery): string {
  if (query.span === "all") return `everything up to ${monthWords(query.until)}`;
  const first = periodOf(query).fromDay.slice(0, 7);
  return first === query.until ? monthWords(first) : `${monthWords(first)} to ${monthWords(query.until)}`;
}

export function monthWords(month: string): string {
  const { year, month: number } = Temporal.PlainYearMonth.from(month);
  const name = new Intl.DateTimeFormat("en-GB", { month: "short", timeZone: "UTC" }).format(Date.UTC(year, number - 1));
  return `${name} ${year}`;
}
