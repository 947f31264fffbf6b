import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { VisitStateMark } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { readBoard } from "@/lib/db/board/read-board";
import { withTenant } from "@/lib/db/tenant";
import { clockOf } from "@/lib/work/board/board";
import { drawDayMap } from "@/lib/work/board/day-map";
import { addDays, dateWords, dayAt, isDay } from "@/lib/work/site-time";
import { LiveRefresh } from "../../_components/live-refresh";
import { MapDrawing } from "./_components/map-drawing";

export const metadata: Metadata = { title: "Map of the day" };

/** Where everybody goes, without streets: each person's way in the order of the stops. */
export default async function BoardMapPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<{ day?: string | string[] }>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company, ...office);
  const asked = (await props.searchParams).day;
  const now = new Date();
  const day = isDay(asked) ? asked : dayAt(now, member.timeZone);
  const board = await withTenant(member.companyId, (tx) => readBoard(tx, [day], member, now));
  const map = drawDayMap(board);
  return (
    <>
      <LiveRefresh company={company} kinds={["visit", "order", "away"]} />
      <PageHeader
        title={`${dateWords(day)}, on the map`}
        lead="Straight lines in the order of the stops, north up. No streets are drawn, and no address leaves this server."
        back={{ href: `/${company}/board?day=${day}`, label: "Board" }}
        actions={
          <>
            <LinkButton href={`/${company}/board/map?day=${addDays(day, -1)}`}>Before</LinkButton>
            <LinkButton href={`/${company}/board/map?day=${addDays(day, 1)}`}>After</LinkButton>
          </>
        }
      />
      {map.routes.length === 0 && map.open.length === 0 ? (
        <EmptyState title="Nothing to draw">No visit of this day has a place on the map and somebody to go.</EmptyState>
      ) : (
        <div className="grid gap-6 desk:grid-cols-[minmax(0,1fr)_18rem]">
          <MapDrawing map={map} />
          <div className="grid content-start gap-5">
            {map.routes.map((route, n) => (
              <Section key={route.personId} level={3} title={`${letterOf(n)} ${route.name}`}>
                <ol className="grid text-small">
                  {route.stops.map(({ visit }, at) => (
                    <li key={visit.id} className="flex flex-wrap gap-x-2 border-b border-hairline py-1">
                      <span className="tabular-nums">
                        {letterOf(n)}
                        {at + 1} {clockOf(board.days, visit.startMs ?? 0)}
                      </span>
                      <Link href={`/${company}/work-orders/${visit.orderId}`}>{visit.customer}</Link>
                      <VisitStateMark state={visit.state} />
                    </li>
                  ))}
                </ol>
              </Section>
            ))}
            {map.unmapped.length > 0 && (
              <Section level={3} title="Not on the map">
                <ul className="grid text-small">
                  {map.unmapped.map((visit) => (
                    <li key={visit.id}>
                      {visit.label}, {visit.customer}
                    </li>
                  ))}
                </ul>
              </Section>
            )}
          </div>
        </div>
      )}
    </>
  );
}

const letterOf = (n: number) => String.fromCharCode(65 + (n % 26)) + (n >= 26 ? String(Math.floor(n / 26) + 1) : "");
