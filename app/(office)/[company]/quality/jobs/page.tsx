import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { StrengthMark } from "@/components/work/marks";
import { requireMember } from "@/lib/auth/session";
import { countOutcomeJobs, listOutcomeJobs } from "@/lib/db/quality-jobs";
import { withTenant } from "@/lib/db/tenant";
import { causeWords } from "@/lib/work/callback-words";
import { readOutcomeQuery } from "@/lib/work/outcome-query";
import { queryText, readQualityQuery } from "@/lib/work/quality-period";
import { addDays, dateInFull, dayAt } from "@/lib/work/site-time";
import { jobKindWord } from "@/lib/work/words";

export const metadata: Metadata = { title: "Jobs behind a figure" };

const PAGE = 100;
type Query = Record<string, string | string[] | undefined>;

/** The jobs a mark stands for, with what came of them. */
export default async function FigureJobsPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<Query>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const asked = await props.searchParams;
  const today = dayAt(new Date(), member.timeZone);
  const query = readQualityQuery(asked, today);
  const skip = Math.max(0, Math.min(1_000_000, Math.trunc(Number(asked.skip)) || 0));
  const read = await withTenant(member.companyId, async (tx) => {
    const { callbackWindowDays: windowDays } = await tx.company.findFirstOrThrow({
      select: { callbackWindowDays: true },
    });
    const filter = readOutcomeQuery(asked, query, { today, windowDays });
    return {
      filter,
      all: await countOutcomeJobs(tx, filter),
      jobs: await listOutcomeJobs(tx, filter, { take: PAGE, skip }),
    };
  });
  const { filter, all, jobs } = read;
  const more = Object.fromEntries(
    ["strength", "person", "back", "month", "cause", "followed"].flatMap((name) =>
      typeof asked[name] === "string" ? [[name, asked[name] as string]] : [],
    ),
  );
  const page = (to: number) => `/${company}/quality/jobs?${queryText(query, { ...more, skip: String(to) })}`;
  return (
    <>
      <PageHeader
        title="Jobs behind a figure"
        lead={`Closed from ${dateInFull(filter.fromDay)} to ${dateInFull(addDays(filter.toDay, -1))}${wordsOf(filter)}.`}
        back={{ href: `/${company}/quality/proof?${queryText(query)}`, label: "Proof and callbacks" }}
        actions={
          <LinkButton href={`/${company}/quality/export?${queryText(query, more)}`}>These jobs as CSV</LinkButton>
        }
      />
      <Table
        caption={`${all.toLocaleString("en-US")} jobs, the last closed first`}
        rows={jobs}
        rowKey={({ jobId }) => jobId}
        narrow="cards"
        empty={<EmptyState title="No such job">Nothing in this time fits what the address asks for.</EmptyState>}
        columns={[
          {
            key: "number",
            header: "Job",
            cell: ({ jobId, number }) => <Link href={`/${company}/jobs/${jobId}`}>{number}</Link>,
          },
          {
            key: "closed",
            header: "Closed",
            className: "whitespace-nowrap",
            cell: ({ closedOn }) => dateInFull(closedOn),
          },
          {
            key: "where",
            header: "Where",
            cell: ({ customer, unit }) => (
              <>
                {customer} <span className="text-small text-ink-soft">{unit}</span>
              </>
            ),
          },
          {
            key: "proof",
            header: "Proof",
            cell: ({ strength, jobKind }) => (
              <span className="inline-flex flex-wrap items-baseline gap-x-3">
                <StrengthMark strength={strength} />
                <span className="text-small text-ink-soft">
                  {(jobKindWord as Record<string, string>)[jobKind] ?? jobKind}
                </span>
              </span>
            ),
          },
          {
            key: "person",
            header: "Closed by",
            className: "whitespace-nowrap",
            cell: ({ person }) => person?.name ?? "not known",
          },
          {
            key: "callback",
            header: "Came back",
            cell: ({ callback, callbackOn }) =>
              callback && callbackOn ? (
                <span>
                  <Link href={`/${company}/callbacks/${callback.workOrderId}`}>
                    order {String(callback.workOrder.number)}
                  </Link>
                  , {dateInFull(callbackOn)}: {causeWords(callback.causeCode, callback.ownCause)}
                </span>
              ) : (
                <span className="text-ink-soft">no</span>
              ),
          },
        ]}
      />
      {(skip > 0 || skip + PAGE < all) && (
        <nav aria-label="Pages" className="no-print flex gap-2">
          {skip > 0 && <LinkButton href={page(Math.max(0, skip - PAGE))}>Newer</LinkButton>}
          {skip + PAGE < all && <LinkButton href={page(skip + PAGE)}>Older</LinkButton>}
        </nav>
      )}
    </>
  );
}

function wordsOf({ strengths, cameBack, jobKind }: ReturnType<typeof readOutcomeQuery>): string {
  return [
    jobKind && `, ${(jobKindWord as Record<string, string>)[jobKind] ?? jobKind}`,
    strengths && `, proof ${strengths.join(" or ")}`,
    cameBack === true && ", came back",
    cameBack === false && ", did not come back",
  ]
    .filter(Boolean)
    .join("");
}
