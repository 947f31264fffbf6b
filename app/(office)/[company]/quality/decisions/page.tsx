import type { Metadata } from "next";
import type { ReactNode } from "react";
import { FallingList } from "@/components/registry/falling-list";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { PageHeader } from "@/components/ui/page-header";
import { PrintButton } from "@/components/ui/print-button";
import { Section } from "@/components/ui/section";
import { StrengthMark } from "@/components/work/marks";
import { requireMember } from "@/lib/auth/session";
import { listDecisions } from "@/lib/db/quality-decisions";
import { withTenant } from "@/lib/db/tenant";
import { stepName } from "@/lib/hvac/procedure";
import { dateInFull, dayAt, whenInFull } from "@/lib/work/site-time";
import { QualityPages } from "../_components/quality-pages";

export const metadata: Metadata = { title: "What waits" };

const WEAK_DAYS = 30;

/** A supervisor's day: decisions first, then what may turn into one. */
export default async function DecisionsPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const member = await requireMember(company, "supervisor", "owner");
  const now = new Date();
  const today = dayAt(now, member.timeZone);
  const found = await withTenant(member.companyId, (tx) => listDecisions(tx, { today, now, weakDays: WEAK_DAYS }));
  const toDecide = found.asked.length + found.proposedCallbacks;
  return (
    <>
      <PageHeader
        title="What waits"
        lead={
          toDecide === 0
            ? "No decision waits for you."
            : `${toDecide} ${toDecide === 1 ? "decision waits" : "decisions wait"} for you.`
        }
        actions={<PrintButton>Print</PrintButton>}
      />
      <QualityPages company={company} here="decisions" />
      <Counts
        counts={[
          { href: "#asked", words: "overrides asked", count: found.asked.length },
          { href: `/${company}/callbacks`, words: "callbacks to decide", count: found.proposedCallbacks },
          { href: "#holds", words: "holds failed", count: found.failedHolds.length },
          { href: "#weak", words: `weak proofs in ${WEAK_DAYS} days`, count: found.weak.length },
          { href: "#tools", words: "tools to renew", count: found.falling.length },
          { href: "#tablets", words: "tablets to hear from", count: found.awaited.length + found.silent.length },
        ]}
      />
      <Part id="asked" title="Overrides asked for" none="Nobody asks for an override." empty={found.asked.length === 0}>
        {found.asked.map(({ ask, ...job }) => (
          <Row key={ask.ask} company={company} job={job}>
            <span>
              {stepName(ask.step)}: {ask.why}{" "}
              <span className="text-ink-soft">{found.names.get(ask.askedBy) ?? "Somebody no longer here"}.</span>
            </span>
            <LinkButton href={`/${company}/exceptions`}>Decide</LinkButton>
          </Row>
        ))}
      </Part>
      <Part
        id="callbacks"
        title="Returns that may be callbacks"
        none="No return waits for a decision."
        empty={found.proposedCallbacks === 0}
      >
        <li className="flex flex-wrap items-center justify-between gap-3 py-2">
          <span>{found.proposedCallbacks} proposed by the program, with the job they likely come from.</span>
          <LinkButton href={`/${company}/callbacks`}>Decide</LinkButton>
        </li>
      </Part>
      <Part
        id="holds"
        title="Holds that failed"
        none="No open job has a failed hold."
        empty={found.failedHolds.length === 0}
      >
        {found.failedHolds.map(({ why, ...job }) => (
          <Row key={job.jobId} company={company} job={job}>
            <Reasons of={why} />
          </Row>
        ))}
      </Part>
      <Part
        id="weak"
        title={`Closed on weak proof in the last ${WEAK_DAYS} days`}
        none="Every job was closed on fair or strong proof."
        empty={found.weak.length === 0}
      >
        {found.weak.map(({ why, strength, closedOn, callbackOn, ...job }) => (
          <Row key={job.jobId} company={company} job={job}>
            <span className="flex flex-wrap gap-x-4 desk:w-60">
              <StrengthMark strength={strength} />
              <span className="text-ink-soft">
                closed {dateInFull(closedOn)}
                {callbackOn && `, came back ${dateInFull(callbackOn)}`}
              </span>
            </span>
            <Reasons of={why} />
          </Row>
        ))}
      </Part>
      <Part
        id="tools"
        title="Tools and cylinders about to fall out of date"
        lead="Within 30 days; out of date they weaken the proof of every job they are used on."
        none="Everything is in date."
        empty={found.falling.length === 0}
      >
        <li>
          <FallingList company={company} falling={found.falling} today={today} />
        </li>
      </Part>
      <Part
        id="tablets"
        title="Tablets to hear from"
        lead="The office cannot see what is still on a tablet; it sees numbers that are missing, and silence at a site."
        none="Nothing is missing and no site has been silent for two hours."
        empty={found.awaited.length + found.silent.length === 0}
      >
        {found.awaited.map((each) => (
          <li key={`${each.jobId} ${each.person}`} className="flex flex-wrap gap-x-4 border-b border-hairline py-2">
            <Link href={`/${company}/jobs/${each.jobId}`}>Job {each.number}</Link>
            <span>
              {each.entries} {each.entries === 1 ? "entry" : "entries"} of {each.person} not arrived.{" "}
              <span className="text-ink-soft">Last heard {whenInFull(each.lastReceivedAt, member.timeZone)}.</span>
            </span>
          </li>
        ))}
        {found.silent.map((each) => (
          <li key={each.orderId} className="flex flex-wrap gap-x-4 border-b border-hairline py-2">
            <Link href={`/${company}/work-orders/${each.orderId}`}>Work order {each.number}</Link>
            <span>
              {each.people} on site,{" "}
              {each.lastReceivedAt
                ? `last heard ${whenInFull(each.lastReceivedAt, member.timeZone)}`
                : "nothing heard yet"}
              .
            </span>
          </li>
        ))}
      </Part>
    </>
  );
}

/** How much of each there is, each a way to it; nothing is coloured that asks for nothing. */
function Counts({ counts }: { counts: readonly { href: string; words: string; count: number }[] }) {
  return (
    <ul className="grid grid-cols-2 gap-px border-y border-hairline min-[40rem]:grid-cols-3 desk:grid-cols-6">
      {counts.map(({ href, words, count }) => (
        <li key={words}>
          <Link
            href={href}
            className="grid min-h-16 content-center gap-0.5 py-2 pr-3 text-ink no-underline hover:bg-sunk"
          >
            <span className={`text-title tabular-nums ${count > 0 ? "font-semibold" : "text-ink-soft"}`}>{count}</span>
            <span className="text-small text-ink-soft">{words}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}

function Part(props: { id: string; title: string; lead?: string; none: string; empty: boolean; children: ReactNode }) {
  return (
    <div id={props.id}>
      <Section title={props.title} {...(props.lead && { lead: props.lead })}>
        {props.empty ? <p className="text-ink-soft">{props.none}</p> : <ul className="grid">{props.children}</ul>}
      </Section>
    </div>
  );
}

interface NamedJob {
  readonly jobId: string;
  readonly number: number;
  readonly unit: string;
  readonly customer: string;
}

function Row({ company, job, children }: { company: string; job: NamedJob; children: ReactNode }) {
  return (
    <li className="flex flex-wrap items-start justify-between gap-x-6 gap-y-1 border-b border-hairline py-2">
      <span className="flex flex-wrap gap-x-4">
        <Link href={`/${company}/jobs/${job.jobId}`} className="font-semibold">
          Job {job.number}
        </Link>
        <span className="text-ink-soft">
          {job.unit}, {job.customer}
        </span>
      </span>
      <span className="flex grow flex-wrap items-start justify-between gap-3 desk:grow-0 desk:basis-3/5">
        {children}
      </span>
    </li>
  );
}

function Reasons({ of }: { of: readonly string[] }) {
  if (of.length === 0) return null;
  return (
    <ul className="grid grow list-disc pl-5 text-small">
      {of.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  );
}
