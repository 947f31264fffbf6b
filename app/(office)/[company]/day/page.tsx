import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { Urgency } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listTechnicians } from "@/lib/db/intake";
import { withTenant } from "@/lib/db/tenant";
import { listUnplacedVisits, listVisits } from "@/lib/db/visits";
import { addDays, dateWords, dayAt, dayBounds, isDay, windowAt } from "@/lib/work/site-time";
import { LiveRefresh } from "../_components/live-refresh";
import { DayLanes } from "./_components/day-lanes";

export const metadata: Metadata = { title: "Day" };

type Query = { day?: string | string[] };

/** People down, hours across; what has no place yet at the edge. Hours are the company's. */
export default async function DayPage(props: { params: Promise<{ company: string }>; searchParams: Promise<Query> }) {
  const { company } = await props.params;
  const member = await requireMember(company, ...office);
  const now = new Date();
  const today = dayAt(now, member.timeZone);
  const asked = (await props.searchParams).day;
  const day = isDay(asked) ? asked : today;
  const bounds = dayBounds(day, member.timeZone);
  const { visits, unplaced, technicians, calls } = await withTenant(member.companyId, async (tx) => ({
    visits: await listVisits(tx, bounds),
    unplaced: await listUnplacedVisits(tx),
    technicians: await listTechnicians(tx),
    calls: await tx.serviceCall.count({ where: { state: "new" } }),
  }));
  const placed = visits.filter((visit) => visit.plannedStart !== null && visit.people.length > 0);
  return (
    <>
      <LiveRefresh company={company} kinds={["visit", "job", "call", "order"]} />
      <PageHeader
        title={dateWords(day)}
        lead={`Visits placed: ${placed.length}; without a place: ${unplaced.length}. Calls without a work order: ${calls}. Hours in ${member.timeZone}.`}
        actions={
          <>
            <LinkButton href={`/${company}/day?day=${addDays(day, -1)}`}>Day before</LinkButton>
            {day !== today && <LinkButton href={`/${company}/day`}>Today</LinkButton>}
            <LinkButton href={`/${company}/day?day=${addDays(day, 1)}`}>Day after</LinkButton>
            <LinkButton kind="action" href={`/${company}/calls/new`}>
              Take a call
            </LinkButton>
          </>
        }
      />
      <div className="grid gap-8 wide:grid-cols-[minmax(0,1fr)_18rem]">
        <Section title="Who is where">
          {technicians.length === 0 ? (
            <EmptyState title="No technician yet">Invite one on the People page, or give somebody the role.</EmptyState>
          ) : (
            <DayLanes
              company={company}
              technicians={technicians}
              visits={placed}
              bounds={bounds}
              timeZone={member.timeZone}
              now={day === today ? now : null}
            />
          )}
        </Section>
        <Section title="Without a place">
          {unplaced.length === 0 && <p className="text-ink-soft">Every visit has a time and somebody to go.</p>}
          <ul className="grid">
            {unplaced.map((visit) => {
              const { serviceCall: call, ...order } = visit.workOrder;
              return (
                <li key={visit.id} className="grid gap-1 border-b border-hairline py-2">
                  <span className="flex justify-between gap-3">
                    <Link href={`/${company}/work-orders/${order.id}`}>Work order {String(order.number)}</Link>
                    <Urgency urgency={call.urgency} />
                  </span>
                  <span>
                    {call.customer.name}, {call.site.city}
                  </span>
                  <span className="line-clamp-2 text-small text-ink-soft">{call.symptom}</span>
                  {visit.windowFrom && visit.windowTo && (
                    <span className="text-small">
                      promised {windowAt(visit.windowFrom, visit.windowTo, call.site.timeZone)}
                    </span>
                  )}
                </li>
              );
            })}
          </ul>
          {calls > 0 && <Link href={`/${company}/calls`}>Calls without a work order: {calls}</Link>}
        </Section>
      </div>
    </>
  );
}
