import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { PrintButton } from "@/components/ui/print-button";
import { FilterLinks } from "@/components/work/filter-links";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { readBoard } from "@/lib/db/board/read-board";
import { withTenant } from "@/lib/db/tenant";
import { addDays, dateWords, dayAt, isDay } from "@/lib/work/site-time";
import { LiveRefresh } from "../_components/live-refresh";
import { BoardDesk } from "./_components/board-desk";

export const metadata: Metadata = { title: "Board" };

const spans = [
  { value: "day", label: "Day", days: 1 },
  { value: "three", label: "Three days", days: 3 },
  { value: "week", label: "Week", days: 7 },
] as const;
type Query = { day?: string | string[]; span?: string | string[]; find?: string | string[] };

/** Who can be where, and which promise breaks: people down, hours across, calls without a place at the edge. */
export default async function BoardPage(props: { params: Promise<{ company: string }>; searchParams: Promise<Query> }) {
  const { company } = await props.params;
  const member = await requireMember(company, ...office);
  const query = await props.searchParams;
  const now = new Date();
  const today = dayAt(now, member.timeZone);
  const first = isDay(query.day) ? query.day : today;
  const span = spans.find(({ value }) => value === query.span) ?? spans[0];
  const days = Array.from({ length: span.days }, (_, n) => addDays(first, n));
  const board = await withTenant(member.companyId, (tx) => readBoard(tx, days, member, now));
  const at = (day: string, value: string = span.value) => {
    const chosen = new URLSearchParams();
    if (day !== today) chosen.set("day", day);
    if (value !== "day") chosen.set("span", value);
    return `/${company}/board${chosen.size > 0 ? `?${chosen}` : ""}`;
  };
  return (
    <>
      <LiveRefresh company={company} kinds={["visit", "job", "call", "order", "away"]} />
      <PageHeader
        title={span.days === 1 ? dateWords(first) : `${dateWords(first)} to ${dateWords(days.at(-1)!)}`}
        actions={
          <>
            <LinkButton href={at(addDays(first, -span.days))}>Before</LinkButton>
            {first !== today && <LinkButton href={at(today)}>Today</LinkButton>}
            <LinkButton href={at(addDays(first, span.days))}>After</LinkButton>
            <LinkButton href={`/${company}/board/map?day=${first}`}>Map</LinkButton>
            <PrintButton>Print</PrintButton>
            <LinkButton kind="action" href={`/${company}/calls/new`}>
              Take a call
            </LinkButton>
          </>
        }
      />
      {board.people.length === 0 ? (
        <EmptyState title="No technician yet">Invite one on the People page, or give somebody the role.</EmptyState>
      ) : (
        <BoardDesk
          company={company}
          board={board}
          find={typeof query.find === "string" ? query.find.slice(0, 100) : ""}
          spans={
            <FilterLinks
              label="How many days"
              chosen={span.value}
              filters={spans.map(({ value, label }) => ({ value, label, href: at(first, value) }))}
            />
          }
        />
      )}
    </>
  );
}
