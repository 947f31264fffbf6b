import type { Metadata } from "next";
import { BookMass } from "@/components/registry/measures";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { Table } from "@/components/ui/table";
import { requireMember } from "@/lib/auth/session";
import { readExceptions, readFlows, readHoldings } from "@/lib/db/refrigerant/books";
import { withTenant } from "@/lib/db/tenant";
import { unitSystemOf } from "@/lib/registry/company";
import { isMonth, monthWords } from "@/lib/work/quality-period";
import { placeWords } from "@/lib/work/refrigerant-words";
import { dayAt } from "@/lib/work/site-time";
import { LiveRefresh } from "../_components/live-refresh";
import { MonthForm } from "./_components/month-form";
import { RefrigerantPages } from "./_components/refrigerant-pages";

export const metadata: Metadata = { title: "Refrigerant" };

/** What cannot be so stands first and must leave the rest of the page in reach. */
const SHOWN = 50;
type Query = Record<string, string | string[] | undefined>;

/** Where every gram went: what cannot be so first, then what flowed, then what is where. */
export default async function RefrigerantPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Query>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const asked = await props.searchParams;
  const all = asked.all === "yes";
  const thisMonth = dayAt(new Date(), member.timeZone).slice(0, 7);
  const month = (value: unknown, other: string) => (typeof value === "string" && isMonth(value) ? value : other);
  const to = month(asked.to, thisMonth);
  const from = [month(asked.from, `${thisMonth.slice(0, 4)}-01`), to].sort()[0]!;
  const { exceptions, flows, holdings } = await withTenant(member.companyId, async (tx) => ({
    exceptions: await readExceptions(tx),
    flows: await readFlows(tx, `${from}-01`, `${to}-01`),
    holdings: await readHoldings(tx),
  }));
  const system = unitSystemOf(member.ruleSet);
  const base = `/${company}/refrigerant`;
  return (
    <>
      <LiveRefresh company={company} kinds={["job", "cylinder"]} />
      <PageHeader
        title="Refrigerant"
        lead="Every gram stands in one place: what leaves one enters another. Recovery and charge post by themselves from the job's log; a correction takes back and posts anew."
      />
      <RefrigerantPages company={company} here="mass" />
      <Section title={exceptions.length === 0 ? "The books close" : `What does not balance (${exceptions.length})`}>
        <Table
          caption={`${exceptions.length > SHOWN && !all ? `The first ${SHOWN} differences` : "Differences"}, the largest first; none is rounded away`}
          rows={all ? exceptions : exceptions.slice(0, SHOWN)}
          rowKey={({ code, subjectId, refrigerant }) => `${code} ${subjectId} ${refrigerant}`}
          narrow="cards"
          empty={<EmptyState title="Nothing is off">Books, scales and limits agree.</EmptyState>}
          columns={[
            {
              key: "name",
              header: "Where",
              cell: ({ subject, subjectId, name }) =>
                subject === "circuit" ? (
                  <Link href={`${base}/circuits/${subjectId}`}>{name}</Link>
                ) : (
                  <Link href={`${base}/cylinders`}>{subject === "cylinder" ? `Cylinder ${name}` : name}</Link>
                ),
            },
            { key: "refrigerant", header: "Refrigerant", cell: ({ refrigerant }) => refrigerant ?? "–" },
            {
              key: "grams",
              header: "Off by",
              numeric: true,
              cell: ({ grams }) => <BookMass grams={grams} system={system} signed />,
            },
            {
              key: "text",
              header: "What is wrong",
              cell: ({ code, text }) => (
                <StateMark state={code === "cylinder-overfilled" ? "refused" : "needs-you"} word={text} />
              ),
            },
          ]}
        />
        {exceptions.length > SHOWN && !all && (
          <LinkButton href={`${base}?from=${from}&to=${to}&all=yes`}>Show all {exceptions.length}</LinkButton>
        )}
      </Section>
      <Section
        title={`What flowed, ${monthWords(from)} to ${monthWords(to)}`}
        actions={<MonthForm path={base} from={from} to={to} />}
      >
        <Table
          caption="From one kind of place to another, the largest first"
          rows={flows}
          rowKey={(flow) => `${flow.from} ${flow.to} ${flow.refrigerant}`}
          narrow="cards"
          empty={<EmptyState title="Nothing moved in these months" />}
          columns={[
            { key: "from", header: "From", cell: (flow) => placeWords[flow.from] },
            { key: "to", header: "To", cell: (flow) => placeWords[flow.to] },
            { key: "refrigerant", header: "Refrigerant", cell: (flow) => flow.refrigerant },
            {
              key: "grams",
              header: "Mass",
              numeric: true,
              cell: (flow) => <BookMass grams={flow.grams} system={system} />,
            },
          ]}
        />
      </Section>
      <Section
        title="What is where now"
        lead="Counted from the beginning of the books; the masses of all places sum to nothing."
      >
        <Table
          caption="By kind of place"
          captionHidden
          rows={holdings}
          rowKey={({ kind, refrigerant }) => `${kind} ${refrigerant}`}
          narrow="cards"
          empty={
            <EmptyState title="Nothing is in the books yet">
              A cylinder's content, a circuit's charge and each recovery come in as they are written down.
            </EmptyState>
          }
          columns={[
            { key: "place", header: "Place", cell: ({ kind }) => placeWords[kind] },
            { key: "refrigerant", header: "Refrigerant", cell: ({ refrigerant }) => refrigerant },
            {
              key: "grams",
              header: "Mass",
              numeric: true,
              cell: ({ grams }) => <BookMass grams={grams} system={system} signed />,
            },
          ]}
        />
      </Section>
    </>
  );
}
