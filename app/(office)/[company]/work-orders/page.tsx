import type { Metadata } from "next";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { JobStateMark, Urgency, VisitStateMark } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { withTenant } from "@/lib/db/tenant";
import { listWorkOrders } from "@/lib/db/work-orders";
import { whenInFull, windowAt } from "@/lib/work/site-time";

export const metadata: Metadata = { title: "Work orders" };

const states = ["open", "done", "cancelled"] as const;
type Query = { state?: string | string[] };

export default async function WorkOrdersPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Query>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company, ...office);
  const asked = (await props.searchParams).state;
  const state = states.find((each) => each === asked) ?? "open";
  const orders = await withTenant(member.companyId, (tx) => listWorkOrders(tx, state));
  return (
    <>
      <PageHeader title="Work orders" lead="What was promised, authorized and will be billed." />
      <FilterLinks
        label="Which work orders"
        chosen={state}
        filters={[
          { value: "open", label: "Open", href: `/${company}/work-orders` },
          { value: "done", label: "Done", href: `/${company}/work-orders?state=done` },
          { value: "cancelled", label: "Cancelled", href: `/${company}/work-orders?state=cancelled` },
        ]}
      />
      <Table
        caption={`${orders.length} work orders`}
        rows={orders}
        rowKey={(order) => order.id}
        narrow="cards"
        empty={<EmptyState title="No work orders here">A work order begins with a call.</EmptyState>}
        columns={[
          {
            key: "number",
            header: "Work order",
            cell: (order) => <Link href={`/${company}/work-orders/${order.id}`}>{String(order.number)}</Link>,
          },
          { key: "urgency", header: "Urgency", cell: (order) => <Urgency urgency={order.serviceCall.urgency} /> },
          { key: "customer", header: "Customer", cell: (order) => order.serviceCall.customer.name },
          { key: "site", header: "Site", cell: (order) => order.serviceCall.site.name },
          {
            key: "visits",
            header: "Visits",
            cell: (order) =>
              order.visits.length === 0 ? (
                <span className="text-ink-soft">none planned</span>
              ) : (
                <ul className="grid gap-1">
                  {order.visits.map((visit) => (
                    <li key={visit.id} className="grid">
                      <VisitStateMark state={visit.state} />
                      <span className="text-small">
                        {visitTime(visit, order.serviceCall.site.timeZone)}
                        {visit.people.length > 0 && `, ${visit.people.map((each) => each.person.name).join(", ")}`}
                      </span>
                    </li>
                  ))}
                </ul>
              ),
          },
          {
            key: "jobs",
            header: "Circuit jobs",
            cell: (order) => (
              <ul className="grid gap-1">
                {order.jobs.map((job) => (
                  <li key={job.id} className="flex gap-3">
                    <Link href={`/${company}/jobs/${job.id}`}>{String(job.number)}</Link>
                    <JobStateMark state={job.state} />
                  </li>
                ))}
              </ul>
            ),
          },
        ]}
      />
    </>
  );
}

function visitTime(
  visit: { plannedStart: Date | null; windowFrom: Date | null; windowTo: Date | null },
  timeZone: string,
) {
  if (visit.plannedStart) return whenInFull(visit.plannedStart, timeZone);
  if (visit.windowFrom && visit.windowTo) return `promised ${windowAt(visit.windowFrom, visit.windowTo, timeZone)}`;
  return "no time yet";
}
