import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { StrengthMark } from "@/components/work/marks";
import { requireMember } from "@/lib/auth/session";
import { type CallbackState, listCallbacks } from "@/lib/db/callbacks";
import { withTenant } from "@/lib/db/tenant";
import { causeWords, originReason } from "@/lib/work/callback-words";
import { dateInFull } from "@/lib/work/site-time";

export const metadata: Metadata = { title: "Callbacks" };

const filters: readonly { value: CallbackState; label: string }[] = [
  { value: "proposed", label: "To decide" },
  { value: "confirmed", label: "Confirmed" },
  { value: "not-related", label: "Not related" },
];
const nothing: Record<CallbackState, { title: string; words: string }> = {
  proposed: {
    title: "No return waits for a decision",
    words: "A work order on a unit whose circuit was closed within the callback window is put here by itself.",
  },
  confirmed: { title: "No callback is confirmed", words: "Confirmed returns count in the quality figures." },
  "not-related": { title: "Nothing was set aside", words: "Returns that have nothing to do with the earlier work." },
};
type Query = { show?: string | string[] };

/** Returns that may come from earlier work: proposed by the program, decided by a person. */
export default async function CallbacksPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Query>;
}) {
  const { company } = await props.params;
  const { companyId } = await requireMember(company, "supervisor", "owner");
  const asked = (await props.searchParams).show;
  const chosen = filters.find(({ value }) => value === asked)?.value ?? "proposed";
  const callbacks = await withTenant(companyId, (tx) => listCallbacks(tx, chosen));
  return (
    <>
      <PageHeader
        title="Callbacks"
        lead="Orders that may come back from earlier work. The program proposes, a person says what it was."
        actions={<LinkButton href={`/${company}/callbacks/causes`}>Causes and costs</LinkButton>}
      />
      <FilterLinks
        label="Which callbacks"
        chosen={chosen}
        filters={filters.map((each) => ({ ...each, href: `/${company}/callbacks?show=${each.value}` }))}
      />
      <Table
        caption={
          callbacks.length === 200
            ? "The latest 200 returns"
            : callbacks.length === 1
              ? "1 return"
              : `${callbacks.length} returns`
        }
        rows={callbacks}
        rowKey={({ workOrderId }) => workOrderId}
        narrow="cards"
        empty={<EmptyState title={nothing[chosen].title}>{nothing[chosen].words}</EmptyState>}
        columns={[
          {
            key: "order",
            header: "Work order",
            cell: ({ workOrder }) => (
              <Link href={`/${company}/callbacks/${workOrder.id}`}>{String(workOrder.number)}</Link>
            ),
          },
          { key: "came", header: "Came in", className: "whitespace-nowrap", cell: ({ cameOn }) => dateInFull(cameOn) },
          { key: "customer", header: "Customer", cell: ({ workOrder }) => workOrder.serviceCall.customer.name },
          { key: "said", header: "Said", cell: ({ workOrder }) => workOrder.serviceCall.symptom },
          {
            key: "origin",
            header: "From job",
            cell: ({ originJob, basis, daysBetween }) => (
              <span>
                <Link href={`/${company}/jobs/${originJob.id}`}>{String(originJob.number)}</Link>{" "}
                <span className="text-small text-ink-soft">{originReason(basis, daysBetween)}</span>
              </span>
            ),
          },
          {
            key: "strength",
            header: "Its proof",
            cell: ({ originJob }) => <StrengthMark strength={originJob.outcomes[0]?.strength ?? null} />,
          },
          ...(chosen === "confirmed"
            ? [
                {
                  key: "cause",
                  header: "Cause",
                  cell: (each: (typeof callbacks)[number]) => causeWords(each.causeCode, each.ownCause),
                },
              ]
            : []),
        ]}
      />
    </>
  );
}
