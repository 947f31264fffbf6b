import type { Metadata } from "next";
import { certificateKindWord, choicesOf, roleWord } from "@/components/registry/words";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import { office, type Role } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { fromColumn } from "@/lib/db/calendar-date";
import { listInvitations } from "@/lib/db/gate";
import { listMembers } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { judgeInDate } from "@/lib/registry/in-date";
import type { CertificateKind } from "@/lib/registry/member";
import { dayAt, whenAt } from "@/lib/work/site-time";
import { InviteForm } from "../_components/invite-form";
import { withdraw } from "../actions";

export const metadata: Metadata = { title: "People" };

export default async function PeoplePage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const member = await requireMember(company, ...office);
  const mayInvite = member.roles.includes("supervisor") || member.roles.includes("owner");
  const { members, invitations } = await withTenant(member.companyId, async (tx) => ({
    members: await listMembers(tx),
    invitations: mayInvite ? await listInvitations(tx) : [],
  }));
  const now = new Date();
  const today = dayAt(now, member.timeZone);
  return (
    <>
      <PageHeader
        title="People"
        actions={<LinkButton href={`/${company}/settings/planning`}>Working time and roads</LinkButton>}
      />
      <Table
        caption="Everyone of the company"
        captionHidden
        narrow="cards"
        rows={members}
        rowKey={({ personId }) => personId}
        columns={[
          {
            key: "name",
            header: "Name",
            cell: ({ personId, name, active }) => (
              <>
                <Link href={`/${company}/people/${personId}`}>{name}</Link>
                {!active && <StateMark state="waiting" word="Not active" className="ml-3" />}
              </>
            ),
          },
          {
            key: "roles",
            header: "Roles",
            cell: ({ roles }) => roles.map((role) => roleWord[role as Role]).join(", "),
          },
          { key: "phone", header: "Phone", className: "whitespace-nowrap", cell: ({ phone }) => phone || "–" },
          { key: "email", header: "E-mail", cell: ({ email }) => <span className="break-all">{email}</span> },
          {
            key: "certificates",
            header: "Certificates",
            cell: ({ certificates, roles }) =>
              certificates.length > 0 || roles.includes("technician") ? (
                <CertificateWords certificates={certificates} today={today} />
              ) : (
                "–"
              ),
          },
        ]}
      />
      {mayInvite && (
        <>
          <Section title="Invite someone" lead="Only owners and supervisors may. You hand over the link yourself.">
            <InviteForm
              company={company}
              fields={[
                { name: "name", label: "Name", kind: "text" },
                { name: "email", label: "E-mail", kind: "email" },
                {
                  name: "roles",
                  label: "Roles",
                  kind: "ticks",
                  choices: choicesOf(roleWord).filter(
                    ({ value }) => value !== "owner" || member.roles.includes("owner"),
                  ),
                },
              ]}
            />
          </Section>
          {invitations.length > 0 && (
            <Section title="Invitations not taken yet">
              <ul className="grid">
                {invitations.map((each) => (
                  <li
                    key={each.id}
                    className="flex flex-wrap items-center justify-between gap-4 border-b border-hairline py-2"
                  >
                    <span>
                      <span className="font-medium">{each.name}</span> {each.email}{" "}
                      <span className="text-small text-ink-soft">
                        {each.roles.map((role) => roleWord[role as Role]).join(", ")} ·{" "}
                        {each.expires_at > now ? "open until " : "expired "}
                        {whenAt(each.expires_at, member.timeZone)}
                      </span>
                    </span>
                    <form action={withdraw}>
                      <input type="hidden" name="company" value={company} />
                      <input type="hidden" name="invitationId" value={each.id} />
                      <SubmitButton kind="quiet">Withdraw</SubmitButton>
                    </form>
                  </li>
                ))}
              </ul>
            </Section>
          )}
        </>
      )}
    </>
  );
}

function CertificateWords(props: {
  certificates: readonly { id: string; kind: string; expiresOn: Date | null }[];
  today: string;
}) {
  if (props.certificates.length === 0) return <StateMark state="cannot-say" word="None on record" />;
  return (
    <ul>
      {props.certificates.map((each) => (
        <li key={each.id}>
          {certificateKindWord[each.kind as CertificateKind]}{" "}
          {judgeInDate(fromColumn(each.expiresOn), props.today) === "out-of-date" && (
            <StateMark state="refused" word="Out of date" />
          )}
        </li>
      ))}
    </ul>
  );
}
