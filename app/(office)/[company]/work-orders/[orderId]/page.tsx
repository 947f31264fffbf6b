import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { LinkButton } from "@/components/ui/button";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { JobStateMark, OrderState, StrengthMark, Urgency } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { fromColumn } from "@/lib/db/calendar-date";
import { listTechnicians } from "@/lib/db/intake";
import { withTenant } from "@/lib/db/tenant";
import { findWorkOrder } from "@/lib/db/work-orders";
import { isUuid } from "@/lib/ids";
import { listToolFaults } from "@/lib/registry/tool-faults";
import { circuitDemandOf, listMissingCertificates } from "@/lib/work/qualification";
import { dayAt } from "@/lib/work/site-time";
import { AddJobForm } from "./_components/add-job-form";
import { EndOrder } from "./_components/end-order";
import { VisitForm } from "./_components/visit-form";

export const metadata: Metadata = { title: "Work order" };

export default async function WorkOrderPage({ params }: { params: Promise<{ company: string; orderId: string }> }) {
  const { company, orderId } = await params;
  const member = await requireMember(company, ...office);
  if (!isUuid(orderId)) notFound();
  const found = await withTenant(member.companyId, async (tx) => {
    const order = await findWorkOrder(tx, orderId);
    if (!order) return null;
    const circuits = await tx.circuit.findMany({
      where: { archivedAt: null, equipment: { siteId: order.serviceCall.site.id, archivedAt: null } },
      select: {
        id: true,
        name: true,
        refrigerantState: true,
        actualRefrigerant: true,
        equipment: { select: { name: true } },
      },
      orderBy: { name: "asc" },
    });
    return { order, circuits, technicians: await listTechnicians(tx) };
  });
  if (!found) notFound();
  const { order, circuits } = found;
  const { serviceCall: call } = order;
  const { site, equipment } = call;
  const demands = order.jobs.map((job) =>
    circuitDemandOf({ ...job.circuit, applianceKind: job.circuit.equipment.applianceKind }, member.ruleSet),
  );
  const today = dayAt(new Date(), site.timeZone);
  const technicians = found.technicians.map((each) => ({
    ...each,
    faults: each.tools.flatMap(({ calibrationDueOn, checkDueOn, doubtedOn, ...tool }) => {
      const days = {
        calibrationDueOn: fromColumn(calibrationDueOn),
        checkDueOn: fromColumn(checkDueOn),
        doubtedOn: fromColumn(doubtedOn),
      };
      return listToolFaults({ ...tool, ...days }, today).map((fault) => `${tool.name}: ${fault}`);
    }),
    missing: [...new Set(demands.flatMap((demand) => listMissingCertificates(demand, each.certificates, today)))],
  }));
  const open = order.state === "open";
  const without = circuits.filter((circuit) => !order.jobs.some((job) => job.circuitId === circuit.id));
  return (
    <>
      <PageHeader
        title={`Work order ${order.number}`}
        lead={call.symptom}
        back={{ href: `/${company}/work-orders`, label: "Work orders" }}
        actions={
          <>
            <LinkButton href={`/${company}/work-orders/${order.id}/lines`} prefetch={false} download>
              Lines for the bill
            </LinkButton>
            {open && <EndOrder company={company} orderId={order.id} />}
          </>
        }
      />
      <Facts
        columns={2}
        items={[
          { term: "State", value: <OrderState state={order.state} /> },
          { term: "Urgency", value: <Urgency urgency={call.urgency} /> },
          {
            term: "Customer",
            value: <Link href={`/${company}/customers/${call.customer.id}`}>{call.customer.name}</Link>,
          },
          { term: "Phone", value: call.customer.phone || "not on file" },
          { term: "Site", value: [site.name, site.street, site.postalCode, site.city].filter(Boolean).join(", ") },
          { term: "Access", value: site.accessNote || "nothing noted" },
          {
            term: "Unit",
            value: equipment ? (
              <Link href={`/${company}/equipment/${equipment.id}`}>{equipment.name}</Link>
            ) : (
              "not said"
            ),
          },
          { term: "Call", value: <Link href={`/${company}/calls/${call.id}`}>{String(call.number)}</Link> },
        ]}
      />
      <Section
        title="Circuit jobs"
        lead="Each is closed by its own proof; the work order is done when all of them are."
      >
        <ul className="grid">
          {order.jobs.map((job) => (
            <li key={job.id} className="flex flex-wrap items-baseline gap-x-5 gap-y-1 border-b border-hairline py-2">
              <Link href={`/${company}/jobs/${job.id}`} className="font-semibold">
                Job {String(job.number)}
              </Link>
              <span>
                {job.circuit.equipment.name}, {job.circuit.name}
              </span>
              <JobStateMark state={job.state} />
              <span className="text-small">
                proof: <StrengthMark strength={job.strength} />
              </span>
            </li>
          ))}
          {order.jobs.length === 0 && <li className="text-ink-soft">No circuit is to be opened.</li>}
        </ul>
        {open && without.length > 0 && <AddJobForm company={company} orderId={order.id} circuits={without} />}
      </Section>
      <Section title="Visits" lead={`Times are the site's (${site.timeZone}).`}>
        {order.visits.map((visit) => (
          <VisitForm
            key={`${visit.id} ${visit.version}`}
            company={company}
            orderId={order.id}
            timeZone={site.timeZone}
            visit={visit}
            technicians={technicians}
          />
        ))}
        {open && (
          <details className="border-t border-hairline pt-2" open={order.visits.length === 0}>
            <summary className="min-h-8 cursor-pointer font-semibold">
              Plan {order.visits.length === 0 ? "the" : "another"} visit
            </summary>
            <VisitForm
              key={order.visits.length}
              company={company}
              orderId={order.id}
              timeZone={site.timeZone}
              visit={null}
              technicians={technicians}
            />
          </details>
        )}
      </Section>
    </>
  );
}
