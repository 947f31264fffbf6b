import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RegisterForm } from "@/components/registry/register-form";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { JobStateMark, OrderState, StrengthMark, Urgency } from "@/components/work/marks";
import { linkAddress } from "@/lib/auth/link-token";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { fromColumn } from "@/lib/db/calendar-date";
import { listMessages } from "@/lib/db/customer-messages";
import { listTechnicians } from "@/lib/db/intake";
import { statusLinkOf } from "@/lib/db/status-links";
import { withTenant } from "@/lib/db/tenant";
import { findWorkOrder } from "@/lib/db/work-orders";
import { isUuid } from "@/lib/ids";
import { listToolFaults } from "@/lib/registry/tool-faults";
import { circuitDemandOf, listMissingCertificates } from "@/lib/work/qualification";
import { dayAt } from "@/lib/work/site-time";
import { AddJobForm } from "./_components/add-job-form";
import { EndOrder } from "./_components/end-order";
import { ToldCustomer } from "./_components/told-customer";
import { VisitForm } from "./_components/visit-form";
import { awaitPart } from "./part-actions";

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
    const [link, messages] = [await statusLinkOf(tx, orderId), await listMessages(tx, orderId)];
    return { order, circuits, link, messages, technicians: await listTechnicians(tx) };
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
            <LinkButton href={`/${company}/work-orders/${order.id}/lines`} download>
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
      <details className="border-t border-hairline pt-2">
        <summary className="min-h-8 cursor-pointer font-semibold">A part is awaited</summary>
        <p className="text-ink-soft">A call for the return visit is made; it can be planned once the part has come.</p>
        <RegisterForm
          action={awaitPart}
          hidden={{ company, orderId: order.id }}
          values={{}}
          submit="Make the call of the return visit"
          parts={[{ fields: [{ name: "part", label: "Part", kind: "text", wide: true }] }]}
        />
      </details>
      <ToldCustomer
        company={company}
        orderId={order.id}
        timeZone={site.timeZone}
        mayWrite={call.customer.mayWrite && call.customer.email !== ""}
        address={found.link && linkAddress("visit", found.link)}
        messages={found.messages}
      />
    </>
  );
}
