import { STRENGTHS, type Strength } from "@/lib/quality";
import { isMonth, periodOf, type QualityQuery } from "./quality-period";
import { addDays } from "./site-time";

/** Which closed jobs stand behind a figure. */
export interface OutcomeFilter {
  readonly fromDay: string;
  /** The first day after it. */
  readonly toDay: string;
  readonly jobKind: string | null;
  readonly strengths: readonly Strength[] | null;
  readonly personId: string | null;
  readonly cameBack: boolean | null;
  /** A code of the program's list, or the id of a cause of the company's own. */
  readonly cause: string | null;
}

type Asked = Readonly<Record<string, string | readonly string[] | undefined>>;

/** The jobs an address asks for; what cannot be read asks for nothing. `followed` leaves out those too young for the window. */
export function readOutcomeQuery(
  asked: Asked,
  query: QualityQuery,
  { today, windowDays }: { today: string; windowDays: number },
): OutcomeFilter {
  const { month, person, cause } = asked;
  const inMonth = typeof month === "string" && isMonth(month) ? month : null;
  const { fromDay, toDay } = periodOf(inMonth ? { span: "month", until: inMonth } : query);
  const followedTo = addDays(today, 1 - windowDays);
  const named = typeof asked.strength === "string" ? asked.strength.split(",") : [];
  const strengths = STRENGTHS.filter((each) => named.includes(each));
  return {
    fromDay,
    toDay: asked.followed === "yes" && followedTo < toDay ? followedTo : toDay,
    jobKind: query.kind,
    strengths: strengths.length > 0 ? strengths : null,
    personId: typeof person === "string" && /^[0-9a-f-]{36}$/.test(person) ? person : null,
    cameBack: asked.back === "yes" ? true : asked.back === "no" ? false : null,
    cause: typeof cause === "string" && /^[0-9a-z-]{1,40}$/.test(cause) ? cause : null,
  };
}
