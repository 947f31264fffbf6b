import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { InDateMark } from "@/components/registry/in-date-mark";
import { RegisterForm } from "@/components/registry/register-form";
import { certificateKindWord, choicesOf, roleWord, toolKindWord } from "@/components/registry/words";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import { office, type Role } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { fromColumn } from "@/lib/db/calendar-date";
import { findFieldPerson } from "@/lib/db/dispatch/field-people";
import { listTechnicians } from "@/lib/db/intake";
import { findMemberOf } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { PersonId } from "@/lib/ids";
import { CERTIFICATE_KINDS, type CertificateKind, certificateExpires } from "@/lib/registry/member";
import type { ToolKind } from "@/lib/registry/tool";
import { dayAt } from "@/lib/work/site-time";
import { FieldSections } from "../_components/field-sections";
import { addCertificateOf, changeMember, strikeCertificate } from "../actions";

export const metadata: Metadata = { title: "Person" };

export default async function PersonPage(props: { params: Promise<{ company: string; personId: string }> }) {
  const { company, personId } = await props.params;
  const member = await requireMember(company, ...office);
  const mayChangeRoles = member.roles.includes("supervisor") || member.roles.includes("owner");
  const id = PersonId.safeParse(personId);
  if (!id.success) notFound();
  const found = await withTenant(member.companyId, async (tx) => {
    const person = await findMemberOf(tx, id.data);
    const field = await findFieldPerson(tx, id.data, new Date());
    return person && field && { person, field, technicians: await listTechnicians(tx) };
  });
  if (!found) notFound();
  const { person, field, technicians } = found;
  const today = dayAt(new Date(), member.timeZone);
  const hidden = { company, personId: person.personId };
  return (
    <>
      <PageHeader
        title={person.name}
        lead={
          <>
            {person.email}
            {!person.active && <StateMark state="waiting" word="Not active" className="ml-3" />}
          </>
        }
        back={{ href: `/${company}/people`, label: "People" }}
      />
      <Section title="Certificates">
        <Table
          caption={`Certificates of ${person.name}`}
          captionHidden
          narrow="cards"
          rows={person.certificates}
          rowKey={(each) => each.id}
          empty={
            <EmptyState title="None on record">
              Nobody may open a circuit without the certificate the rule asks for.
            </EmptyState>
          }
          columns={[
            { key: "kind", header: "Kind", cell: ({ kind }) => certificateKindWord[kind as CertificateKind] },
            { key: "number", header: "Number", className: "font-mono", cell: ({ number }) => number || "–" },
            { key: "issued", header: "Issued", cell: ({ issuedOn }) => fromColumn(issuedOn) ?? "–" },
            {
              key: "expires",
              header: "Valid until",
              cell: ({ kind, expiresOn }) =>
                certificateExpires(kind as CertificateKind) ? (
                  <InDateMark lastDay={fromColumn(expiresOn)} today={today} none="No date on record" />
                ) : (
                  "does not expire"
                ),
            },
            {
              key: "strike",
              header: "",
              cell: (each) => (
                <form action={strikeCertificate}>
                  <input type="hidden" name="company" value={company} />
                  <input type="hidden" name="personId" value={person.personId} />
                  <input type="hidden" name="certificateId" value={each.id} />
                  <SubmitButton kind="plain">
                    Strike off<span className="sr-only"> {certificateKindWord[each.kind as CertificateKind]}</span>
                  </SubmitButton>
                </form>
              ),
            },
          ]}
        />
      </Section>
      <Section title="Add a certificate">
        <RegisterForm
          action={addCertificateOf}
          hidden={hidden}
          values={{ kind: "us-universal" }}
          submit="Add the certificate"
          saved="Certificate added"
          again
          parts={[
            {
              fields: [
                { name: "kind", label: "Kind", kind: "select", choices: choicesOf(certificateKindWord) },
                { name: "number", label: "Number", kind: "text", optional: true },
                { name: "issuedOn", label: "Issued on", kind: "date", optional: true },
                {
                  name: "expiresOn",
                  label: "Valid until",
                  kind: "date",
                  optional: true,
                  hint: "As printed by its issuer.",
                  when: { field: "kind", is: CERTIFICATE_KINDS.filter(certificateExpires) },
                },
              ],
            },
          ]}
        />
      </Section>
      {person.roles.includes("technician") && (
        <FieldSections
          company={company}
          timeZone={member.timeZone}
          person={person}
          field={field}
          others={technicians.filter(({ personId }) => personId !== person.personId)}
        />
      )}
      {mayChangeRoles ? (
        <Section title="Work here" lead="What someone may do follows from the roles; they add up.">
          <RegisterForm
            action={changeMember}
            hidden={hidden}
            submit="Save"
            saved="Saved"
            values={{
              name: person.name,
              phone: person.phone,
              roles: person.roles,
              active: person.active ? "on" : "",
            }}
            parts={[
              {
                fields: [
                  { name: "name", label: "Name", kind: "text" },
                  { name: "phone", label: "Phone", kind: "phone", optional: true },
                  { name: "roles", label: "Roles", kind: "ticks", choices: choicesOf(roleWord) },
                  {
                    name: "active",
                    label: "Works here",
                    kind: "tick",
                    hint: "Without it the person cannot open anything of this company. The records stay.",
                    wide: true,
                  },
                ],
              },
            ]}
          />
        </Section>
      ) : (
        <Section title="Work here">
          <Facts
            items={[
              { term: "Roles", value: person.roles.map((role) => roleWord[role as Role]).join(", ") },
              { term: "Phone", value: person.phone || "–" },
            ]}
          />
        </Section>
      )}
      <Section title="Holds">
        {person.tools.length + person.cylinders.length === 0 && <EmptyState title="No tool or cylinder" />}
        <ul className="grid gap-1">
          {person.tools.map((tool) => (
            <li key={tool.id}>
              <Link href={`/${company}/tools/${tool.id}`}>{tool.name}</Link>{" "}
              <span className="text-ink-soft">{toolKindWord[tool.kind as ToolKind]}</span>
            </li>
          ))}
          {person.cylinders.map((cylinder) => (
            <li key={cylinder.id}>
              <Link href={`/${company}/cylinders/${cylinder.id}`}>Cylinder {cylinder.label}</Link>{" "}
              <span className="text-ink-soft">{cylinder.refrigerant}</span>
            </li>
          ))}
        </ul>
      </Section>
    </>
  );
}
