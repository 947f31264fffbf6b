import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { CallState, Urgency } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listCalls } from "@/lib/db/calls";
import { withTenant } from "@/lib/db/tenant";
import { whenInFull } from "@/lib/work/site-time";

export const metadata: Metadata = { title: "Calls" };

const states = ["new", "ordered", "done", "cancelled", "all"] as const;
type Query = { state?: string | string[] };

export default async function CallsPage(props: { params: Promise<{ company: string }>; searchParams: Promise<Query> }) {
  const { company } = await props.params;
  const member = await requireMember(company, ...office);
  const asked = (await props.searchParams).state;
  const state = states.find((each) => each === asked) ?? "new";
  const calls = await withTenant(member.companyId, (tx) => listCalls(tx, state));
  return (
    <>
      <PageHeader
        title="Calls"
        lead="What customers asked for; the most urgent first."
        actions={
          <LinkButton kind="action" href={`/${company}/calls/new`}>
            Take a call
          </LinkButton>
        }
      />
      <FilterLinks
        label="Which calls"
        chosen={state}
        filters={[
          { value: "new", label: "Without a work order", href: `/${company}/calls` },
          { value: "ordered", label: "Ordered", href: `/${company}/calls?state=ordered` },
          { value: "done", label: "Done", href: `/${company}/calls?state=done` },
          { value: "cancelled", label: "Cancelled", href: `/${company}/calls?state=cancelled` },
          { value: "all", label: "All", href: `/${company}/calls?state=all` },
        ]}
      />
      <Table
        caption={`${calls.length} calls`}
        rows={calls}
        rowKey={(call) => call.id}
        narrow="cards"
        empty={<EmptyState title={state === "new" ? "No call is waiting" : "No calls here"} />}
        columns={[
          {
            key: "number",
            header: "Call",
            cell: (call) => <Link href={`/${company}/calls/${call.id}`}>{String(call.number)}</Link>,
          },
          { key: "urgency", header: "Urgency", cell: (call) => <Urgency urgency={call.urgency} /> },
          { key: "customer", header: "Customer", cell: (call) => call.customer.name },
          { key: "site", header: "Site", cell: (call) => [call.site.name, call.site.city].filter(Boolean).join(", ") },
          { key: "unit", header: "Unit", cell: (call) => call.equipment?.name ?? "not said" },
          {
            key: "symptom",
            header: "What is wrong",
            cell: (call) => <span className="line-clamp-2">{call.symptom}</span>,
          },
          {
            key: "taken",
            header: "Taken",
            className: "whitespace-nowrap",
            cell: (call) => whenInFull(call.takenAt, call.site.timeZone),
          },
          {
            key: "state",
            header: "State",
            cell: (call) => {
              const order = call.workOrders.at(-1);
              return order && call.state === "ordered" ? (
                <Link href={`/${company}/work-orders/${order.id}`}>Work order {String(order.number)}</Link>
              ) : (
                <CallState state={call.state} />
              );
            },
          },
        ]}
      />
    </>
  );
}
