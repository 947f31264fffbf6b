import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { requireMember } from "@/lib/auth/session";
import { type DutyRow, leakRateMethod, listDuties, refreshDuties } from "@/lib/db/refrigerant/duties";
import { withTenant } from "@/lib/db/tenant";
import { DEFERRAL, DUTY_WORDS } from "@/lib/duties";
import { dayAt } from "@/lib/work/site-time";
import { LiveRefresh } from "../../_components/live-refresh";
import { dutyColumns, type ShownDuty } from "../_components/duty-columns";
import { RefrigerantPages } from "../_components/refrigerant-pages";
import { callFor, changeMethod } from "../actions";

export const metadata: Metadata = { title: "What is due" };
const PAGE = 100;
const shows = [
  { value: "open", label: "Open" },
  { value: "late", label: "Late" },
  { value: "done", label: "Done" },
] as const;
type Query = Record<string, string | string[] | undefined>;

/** Legal duties by their last day at the site, each with whose it is, where it stands and how sure that is. */
export default async function DuePage(props: { params: Promise<{ company: string }>; searchParams: Promise<Query> }) {
  const { company } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const asked = await props.searchParams;
  const show = shows.find(({ value }) => value === asked.show)?.value ?? "open";
  const code = typeof asked.code === "string" && Object.hasOwn(DUTY_WORDS, asked.code) ? asked.code : null;
  const skip = Math.max(0, Math.min(1_000_000, Math.trunc(Number(asked.skip)) || 0));
  const { waiting, rows, method } = await withTenant(member.companyId, async (tx) => ({
    waiting: await refreshDuties(tx),
    rows: await listDuties(tx, { show, code }, { take: PAGE + 1, skip }),
    method: await leakRateMethod(tx),
  }));
  const path = `/${company}/refrigerant/due`;
  const now = new Date();
  const columns = dutyColumns(shownDuty, (duty: DutyRow) => dayAt(now, duty.time_zone));
  return (
    <>
      <LiveRefresh company={company} kinds={["job", "call"]} />
      <PageHeader
        title="What is due"
        lead={DEFERRAL}
        actions={<LinkButton href={`/${company}/refrigerant/import`}>Import past additions</LinkButton>}
      />
      <RefrigerantPages company={company} here="due" />
      <FilterLinks
        label="Which duties"
        chosen={show}
        filters={shows.map((each) => ({ ...each, href: `${path}?show=${each.value}` }))}
      />
      {waiting > 0 && <p role="status">{waiting} circuits are still being looked at. Load the page again.</p>}
      <Table
        caption={`${rows.length > PAGE ? `The first ${PAGE}` : rows.length} duties, ${show === "done" ? "the latest done" : "the earliest last day"} first, by the site's own calendar`}
        rows={rows.slice(0, PAGE)}
        rowKey={({ circuit_id, code: each, since }) => `${circuit_id} ${each} ${since}`}
        narrow="cards"
        empty={
          <EmptyState title={show === "open" ? "Nothing is due" : "Nothing here"}>
            A leak above the trigger, or a check that comes round, is put here by itself.
          </EmptyState>
        }
        columns={[
          columns.due,
          columns.what,
          {
            key: "where",
            header: "Where",
            cell: (duty) => (
              <span className="grid">
                <Link href={`/${company}/refrigerant/circuits/${duty.circuit_id}`}>
                  {duty.unit}, {duty.circuit}
                </Link>
                <span className="text-small text-ink-soft">
                  {duty.customer}, {duty.site}
                </span>
              </span>
            ),
          },
          columns.whose,
          columns.source,
          { key: "call", header: "Call", cell: (duty) => <CallFor company={company} duty={duty} /> },
        ]}
      />
      {(skip > 0 || rows.length > PAGE) && (
        <nav aria-label="Pages" className="no-print flex gap-2">
          {skip > 0 && <LinkButton href={`${path}?show=${show}&skip=${Math.max(0, skip - PAGE)}`}>Earlier</LinkButton>}
          {rows.length > PAGE && <LinkButton href={`${path}?show=${show}&skip=${skip + PAGE}`}>Later</LinkButton>}
        </nav>
      )}
      {member.ruleSet === "us" && (
        <Section
          title="How leak rates are computed"
          lead="One method for all appliances; changed, every circuit is judged anew (40 CFR 82.152, 84.102)."
        >
          <RegisterForm
            action={changeMethod}
            hidden={{ company }}
            parts={[
              {
                fields: [
                  {
                    name: "method",
                    label: "Method",
                    kind: "select",
                    choices: [
                      { value: "annualizing", label: "Annualizing" },
                      { value: "rolling", label: "Rolling average of 365 days" },
                    ],
                  },
                ],
              },
            ]}
            values={{ method }}
            submit="Use this method"
            saved="The method is changed"
          />
        </Section>
      )}
    </>
  );
}

function shownDuty({ words, due_by, done_on, ...duty }: DutyRow): ShownDuty {
  return { ...duty, text: words, dueBy: due_by, doneOn: done_on };
}

function CallFor({ company, duty }: { company: string; duty: DutyRow }) {
  if (duty.call_id !== null) return <Link href={`/${company}/calls/${duty.call_id}`}>Call made</Link>;
  if (duty.done_on !== null) return <span className="text-ink-soft">–</span>;
  return (
    <form action={callFor}>
      <input type="hidden" name="company" value={company} />
      <input type="hidden" name="circuitId" value={duty.circuit_id} />
      <input type="hidden" name="code" value={duty.code} />
      <input type="hidden" name="since" value={duty.since} />
      <SubmitButton kind="quiet" aria-label={`Make the call: ${DUTY_WORDS[duty.code] ?? duty.code}, ${duty.unit}`}>
        Make the call
      </SubmitButton>
    </form>
  );
}
