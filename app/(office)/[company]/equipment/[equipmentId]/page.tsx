import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArchiveButton } from "@/components/registry/archive-button";
import { applianceKindWord } from "@/components/registry/words";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { findEquipment, listUnitHistory } from "@/lib/db/equipment";
import { listMaintenancePlans } from "@/lib/db/maintenance";
import { withTenant } from "@/lib/db/tenant";
import { EquipmentId } from "@/lib/ids";
import { unitSystemOf } from "@/lib/registry/company";
import type { ApplianceKind } from "@/lib/registry/equipment";
import { archiveUnit } from "../actions";
import { CircuitSheet } from "./_components/circuit-sheet";
import { Maintenance } from "./_components/maintenance";
import { UnitHistory } from "./_components/unit-history";

export const metadata: Metadata = { title: "Unit" };

export default async function UnitPage(props: { params: Promise<{ company: string; equipmentId: string }> }) {
  const { company, equipmentId } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
  const id = EquipmentId.safeParse(equipmentId);
  if (!id.success) notFound();
  const { unit, history, plans } = await withTenant(member.companyId, async (tx) => ({
    unit: await findEquipment(tx, id.data),
    plans: await listMaintenancePlans(tx, id.data),
    history: await listUnitHistory(tx, id.data),
  }));
  if (!unit) notFound();
  const here = `/${company}/equipment/${unit.id}`;
  const { site } = unit;
  const circuits = mayChange ? unit.circuits : unit.circuits.filter(({ archivedAt }) => archivedAt === null);
  return (
    <>
      <PageHeader
        title={unit.name}
        lead={
          <>
            <Link href={`/${company}/customers/${site.customer.id}`}>{site.customer.name}</Link>
            {unit.place && `, ${unit.place}`}
            {unit.archivedAt && <StateMark state="waiting" word="Archived" className="ml-3" />}
          </>
        }
        back={{ href: `/${company}/customers/${site.customer.id}/sites/${site.id}`, label: site.name }}
        actions={
          mayChange && (
            <>
              <ArchiveButton
                action={archiveUnit}
                hidden={{ company, equipmentId: unit.id }}
                archived={unit.archivedAt !== null}
                name={unit.name}
              />
              <LinkButton href={`${here}/edit`}>Change</LinkButton>
              <LinkButton
                kind="action"
                href={`/${company}/calls/new?customer=${site.customer.id}&site=${site.id}&unit=${unit.id}`}
              >
                Take a call
              </LinkButton>
            </>
          )
        }
      />
      <div className="grid gap-8 desk:grid-cols-[minmax(0,1fr)_minmax(0,1fr)]">
        <div className="grid content-start gap-8">
          <Section title="Nameplate">
            <Facts
              items={[
                { term: "Maker", value: unit.maker || "–" },
                { term: "Model", value: unit.model || "–" },
                { term: "Serial", value: <span className="break-all font-mono">{unit.serial || "–"}</span> },
                { term: "Year made", value: unit.yearMade ?? "–" },
                { term: "Kind", value: applianceKindWord[unit.applianceKind as ApplianceKind] },
              ]}
            />
          </Section>
          <Section
            title="Circuits"
            actions={mayChange && <LinkButton href={`${here}/circuits/new`}>Add a circuit</LinkButton>}
          >
            {circuits.length === 0 && (
              <EmptyState title="No circuit yet">Sealed-system work needs the circuit it is done on.</EmptyState>
            )}
            {circuits.map((circuit) => (
              <CircuitSheet
                key={circuit.id}
                circuit={circuit}
                system={unitSystemOf(member.ruleSet)}
                {...(mayChange && { editHref: `${here}/circuits/${circuit.id}` })}
              />
            ))}
          </Section>
          <Maintenance
            company={company}
            equipmentId={unit.id}
            circuits={unit.circuits.filter(({ archivedAt }) => archivedAt === null)}
            plans={plans}
            mayChange={mayChange && unit.archivedAt === null}
          />
        </div>
        <Section className="content-start" title="History" lead={`Times are the site's (${site.timeZone}).`}>
          <UnitHistory company={company} history={history} timeZone={site.timeZone} mayOpen={mayChange} />
        </Section>
      </div>
    </>
  );
}
