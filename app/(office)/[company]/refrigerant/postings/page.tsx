import type { Metadata } from "next";
import { BookMass } from "@/components/registry/measures";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { requireMember } from "@/lib/auth/session";
import { listPostings } from "@/lib/db/refrigerant/books";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";
import { unitSystemOf } from "@/lib/registry/company";
import { causeWords, placeWords } from "@/lib/work/refrigerant-words";
import { dateInFull, dayAt, isDay } from "@/lib/work/site-time";
import { RefrigerantPages } from "../_components/refrigerant-pages";

export const metadata: Metadata = { title: "Postings" };
const PAGE = 100;
type Query = Record<string, string | string[] | undefined>;

/** The books line by line, the newest first; of one cylinder or circuit where the address names it. */
export default async function PostingsPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Query>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const asked = await props.searchParams;
  const placeId = isUuid(asked.place) ? asked.place : null;
  const today = dayAt(new Date(), member.timeZone);
  const to = isDay(asked.to) ? asked.to : `${Number(today.slice(0, 4)) + 1}-12-31`;
  const from = isDay(asked.from) ? asked.from : "2000-01-01";
  const skip = Math.max(0, Math.min(1_000_000, Math.trunc(Number(asked.skip)) || 0));
  const rows = await withTenant(member.companyId, (tx) =>
    listPostings(tx, { placeId, from, to }, { take: PAGE + 1, skip }),
  );
  const system = unitSystemOf(member.ruleSet);
  const page = (at: number) =>
    `/${company}/refrigerant/postings?${new URLSearchParams({ ...(placeId && { place: placeId }), from, to, skip: String(at) })}`;
  return (
    <>
      <PageHeader
        title="Postings"
        lead="Each takes mass out of one place and puts it into another. None is ever changed: what no longer holds is taken back by another."
      />
      <RefrigerantPages company={company} here="postings" />
      {placeId && (
        <p>
          Only those of one place. <Link href={`/${company}/refrigerant/postings`}>Show all</Link>
        </p>
      )}
      <Table
        caption={
          rows.length > PAGE ? `${PAGE} postings, the newest first` : `${rows.length} postings, the newest first`
        }
        rows={rows.slice(0, PAGE)}
        rowKey={({ id }) => id}
        narrow="cards"
        empty={<EmptyState title="No postings">Nothing moved here in this time.</EmptyState>}
        columns={[
          {
            key: "day",
            header: "Day",
            cell: ({ happened_on }) => dateInFull(happened_on),
          },
          {
            key: "cause",
            header: "What",
            cell: ({ cause, reverses, reversed }) => (
              <span className={reversed || reverses ? "text-ink-soft" : undefined}>
                {reverses ? "Taken back: " : ""}
                {causeWords[cause] ?? cause}
                {reversed ? ", taken back later" : ""}
              </span>
            ),
          },
          { key: "from", header: "From", cell: ({ from_name }) => placeWords[from_name] ?? from_name },
          { key: "to", header: "To", cell: ({ to_name }) => placeWords[to_name] ?? to_name },
          { key: "refrigerant", header: "Refrigerant", cell: ({ refrigerant }) => refrigerant },
          {
            key: "grams",
            header: "Mass",
            numeric: true,
            cell: ({ grams }) => <BookMass grams={grams} system={system} />,
          },
          {
            key: "ground",
            header: "Ground",
            cell: ({ job_id, job_number, document, person }) => (
              <span>
                {job_id ? <Link href={`/${company}/jobs/${job_id}`}>Job {job_number}</Link> : (document ?? "register")}
                {person && <span className="text-ink-soft">, {person}</span>}
              </span>
            ),
          },
        ]}
      />
      {(skip > 0 || rows.length > PAGE) && (
        <nav aria-label="Pages" className="no-print flex gap-2">
          {skip > 0 && <LinkButton href={page(Math.max(0, skip - PAGE))}>Newer</LinkButton>}
          {rows.length > PAGE && <LinkButton href={page(skip + PAGE)}>Older</LinkButton>}
        </nav>
      )}
    </>
  );
}
