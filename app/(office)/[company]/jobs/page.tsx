import type { Metadata } from "next";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { JobStateMark, StrengthMark } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { type JobFilter, listJobs } from "@/lib/db/jobs";
import { withTenant } from "@/lib/db/tenant";
import { whenInFull } from "@/lib/work/site-time";
import { LiveRefresh } from "../_components/live-refresh";

export const metadata: Metadata = { title: "Circuit jobs" };

const filters: readonly { value: JobFilter; label: string }[] = [
  { value: "open", label: "Open" },
  { value: "needs-review", label: "Needs review" },
  { value: "asks-override", label: "Override asked" },
  { value: "closed", label: "Closed" },
  { value: "weak", label: "Closed on weak proof" },
];
type Query = { show?: string | string[] };

export default async function JobsPage(props: { params: Promise<{ company: string }>; searchParams: Promise<Query> }) {
  const { company } = await props.params;
  const member = await requireMember(company, ...office);
  const asked = (await props.searchParams).show;
  const chosen = filters.find((each) => each.value === asked)?.value ?? "open";
  const jobs = await withTenant(member.companyId, (tx) => listJobs(tx, chosen));
  return (
    <>
      <LiveRefresh company={company} kinds={["job"]} />
      <PageHeader title="Circuit jobs" lead="Sealed-system work, one circuit each; closed only by its proof." />
      <FilterLinks
        label="Which jobs"
        chosen={chosen}
        filters={filters.map((each) => ({
          ...each,
          href: `/${company}/jobs${each.value === "open" ? "" : `?show=${each.value}`}`,
        }))}
      />
      <Table
        caption={`${jobs.length} jobs`}
        rows={jobs}
        rowKey={(job) => job.id}
        narrow="cards"
        empty={<EmptyState title="No jobs here">A circuit job is added on a work order.</EmptyState>}
        columns={[
          {
            key: "number",
            header: "Job",
            cell: (job) => <Link href={`/${company}/jobs/${job.id}`}>{String(job.number)}</Link>,
          },
          { key: "customer", header: "Customer", cell: (job) => job.workOrder.serviceCall.customer.name },
          { key: "unit", header: "Unit", cell: (job) => `${job.circuit.equipment.name}, ${job.circuit.name}` },
          { key: "refrigerant", header: "Refrigerant", cell: (job) => job.circuit.actualRefrigerant ?? "unknown" },
          { key: "state", header: "State", cell: (job) => <JobStateMark state={job.state} /> },
          { key: "strength", header: "Proof", cell: (job) => <StrengthMark strength={job.strength} /> },
          {
            key: "changed",
            header: "Last entry",
            cell: (job) => whenInFull(job.changedAt, job.workOrder.serviceCall.site.timeZone),
          },
        ]}
      />
    </>
  );
}
