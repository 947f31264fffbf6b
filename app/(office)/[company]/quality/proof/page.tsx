import type { Metadata } from "next";
import type { ReactNode } from "react";
import { CauseBars } from "@/components/quality-charts/cause-bars";
import { GapPoints } from "@/components/quality-charts/gap-points";
import { MonthDots } from "@/components/quality-charts/month-dots";
import { PeopleFunnel } from "@/components/quality-charts/people-funnel";
import { RateDots } from "@/components/quality-charts/rate-dots";
import { SurvivalSteps } from "@/components/quality-charts/survival-steps";
import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { PrintButton } from "@/components/ui/print-button";
import { Section } from "@/components/ui/section";
import { requireMember } from "@/lib/auth/session";
import { findCallbackRule } from "@/lib/db/callbacks";
import { listMemberNames } from "@/lib/db/jobs";
import { listCallbackGaps, listCauseCosts, tallyQuality } from "@/lib/db/quality";
import { withTenant } from "@/lib/db/tenant";
import { chartJobsBetween, judgeOverDispersion, reportTallies, STRENGTHS } from "@/lib/quality";
import { causeWords, moneyWords } from "@/lib/work/callback-words";
import { monthWords, periodOf, queryText, readQualityQuery } from "@/lib/work/quality-period";
import { addDays, dateInFull, dayAt } from "@/lib/work/site-time";
import {
  adjustedWords,
  differenceWords,
  followedWords,
  headline,
  survivalWords,
} from "../_components/figures-in-words";
import { PeriodBar } from "../_components/period-bar";
import { QualityPages } from "../_components/quality-pages";

export const metadata: Metadata = { title: "Proof and callbacks" };

const strengthName = { strong: "Strong proof", fair: "Fair proof", weak: "Weak proof", none: "No proof" } as const;
type Query = Record<string, string | string[] | undefined>;

/** What weak proof later costs: the answer first, then the figures behind it, each with what it rests on. */
export default async function ProofPage(props: { params: Promise<{ company: string }>; searchParams: Promise<Query> }) {
  const { company } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  const today = dayAt(new Date(), member.timeZone);
  const query = readQualityQuery(await props.searchParams, today);
  const read = await withTenant(member.companyId, async (tx) => {
    const { callbackWindowDays: windowDays, isDemo } = await tx.company.findFirstOrThrow({
      select: { callbackWindowDays: true, isDemo: true },
    });
    const question = { ...periodOf(query), today, windowDays, jobKind: query.kind };
    return {
      windowDays,
      isDemo,
      counted: await tallyQuality(tx, question),
      gaps: await listCallbackGaps(tx, question),
      costs: await listCauseCosts(tx, question),
      rule: await findCallbackRule(tx),
      names: await listMemberNames(tx),
    };
  });
  const { windowDays, counted, gaps, costs, rule, names } = read;
  const report = reportTallies(counted.tallies);
  const { title, text } = headline(report);
  const basis = followedWords({
    followed: report.followed,
    closed: counted.closed,
    windowDays,
    lastDay: addDays(today, -windowDays),
  });
  const jobs = (more: Record<string, string>) =>
    `/${company}/quality/jobs?${queryText(query, { followed: "yes", ...more })}`;
  const chart = chartJobsBetween(gaps.map((gap) => gap.jobs));
  const spread = judgeOverDispersion(report.technicians);
  const money = moneyOf(costs, rule);
  return (
    <>
      <PageHeader
        title="Proof and callbacks"
        lead={
          read.isDemo ? "An invented company: every job and callback of its history was made by a program." : undefined
        }
        actions={
          <>
            <LinkButton href={`/${company}/quality/export?${queryText(query)}`}>Jobs as CSV</LinkButton>
            <PrintButton>Print</PrintButton>
          </>
        }
      />
      <QualityPages company={company} here="proof" />
      <PeriodBar path={`/${company}/quality/proof`} query={query} today={today} />
      {counted.closed === 0 ? (
        <EmptyState title="No job was closed in this time">
          Figures begin with the first closed job, and rates once jobs have been followed for {windowDays} days.
        </EmptyState>
      ) : (
        <>
          <Section title={title} className="max-w-prose">
            <p>{text}</p>
            {report.enough.verdict && <p>{differenceWords(report)}</p>}
            <p className="text-small text-ink-soft">{basis}</p>
          </Section>
          <Beside
            title="How often jobs came back, by how well they were proven"
            words={[
              basis,
              adjustedWords(report),
              "Weak proof stands for weak or none, sound for strong or fair. A difference is not yet a cause: harder jobs are proven less often and come back more often.",
            ]}
          >
            <RateDots
              title="Share of jobs that came back, by strength of proof"
              rows={STRENGTHS.map((key) => ({ key, name: strengthName[key], ...report.byStrength[key] }))}
              hrefs={hrefsOf(STRENGTHS, (strength) => jobs({ strength }))}
            />
          </Beside>
          <Beside
            title="When they came back"
            words={[
              survivalWords(report),
              `Every closed job counts, for as long as it has been seen, at most ${windowDays} days.`,
            ]}
          >
            <SurvivalSteps
              survival={report.survival}
              windowDays={windowDays}
              hrefs={{
                sound: jobs({ strength: "strong,fair", followed: "no" }),
                weak: jobs({ strength: "weak,none", followed: "no" }),
              }}
            />
          </Beside>
          {counted.months.length > 1 && (
            <Beside
              title="Month by month"
              words={[
                "Only months of which every job has been followed.",
                "One month differs from the next by chance; look at the lines, not the dots.",
              ]}
            >
              <MonthDots
                months={counted.months.map((each) => ({ ...each, words: monthWords(each.month) }))}
                hrefs={hrefsOf(
                  counted.months.map(({ month }) => month),
                  (month) => jobs({ month, back: "yes" }),
                )}
              />
            </Beside>
          )}
          <Beside
            title="Is it getting better or worse"
            words={[
              "Counts the jobs that went well between one that came back and the next, in the order they were closed: it does not mind busy and quiet months.",
              "Limits from the geometric distribution with the mean of these gaps.",
              ...(chart?.provisional ? [`Too little data to say: ${gaps.length} gaps, and the limits need 10.`] : []),
            ]}
          >
            {chart ? (
              <GapPoints
                chart={chart}
                gaps={gaps.map(({ jobId, number, closedOn }) => ({
                  key: jobId,
                  href: `/${company}/jobs/${jobId}`,
                  words: `job ${number}, closed ${dateInFull(closedOn)},`,
                }))}
              />
            ) : (
              <p className="text-ink-soft">
                Too little data to say: it takes two jobs that came back, and ten gaps for limits.
              </p>
            )}
          </Beside>
          <Beside
            title="What callbacks cost"
            words={[
              money.words,
              "Callbacks of jobs closed in this time, by the cause a person gave.",
              money.unpriced > 0
                ? `No cost was written down for ${money.unpriced} of them.`
                : "Each has its costs written down.",
            ]}
          >
            {costs.length > 0 ? (
              <CauseBars
                causes={money.bars}
                hrefs={hrefsOf(
                  money.bars.map(({ key }) => key),
                  (cause) => jobs({ cause, followed: "no" }),
                )}
              />
            ) : (
              <p className="text-ink-soft">No confirmed callback.</p>
            )}
          </Beside>
          <Beside
            title="Who may need help"
            words={[
              "Nobody is ranked. Inside the shaded limits chance alone explains the difference; outside them look at the kind of work first.",
              spread === null
                ? "It takes two people with followed jobs to compare anybody."
                : spread.overDispersed
                  ? "People differ by more than chance explains as a whole: different kinds of work are the first suspect, and the limits are too narrow for judging one person."
                  : "As a whole people differ no more than chance explains.",
              "Best estimate: each person's share drawn towards the common one (beta prior by maximum likelihood). Without spread everybody gets the common share.",
            ]}
          >
            {report.pooledRate !== null && report.technicians.length > 0 ? (
              <PeopleFunnel
                people={report.technicians}
                pooledRate={report.pooledRate}
                names={names}
                hrefs={hrefsOf(
                  report.technicians.map(({ technician }) => technician),
                  (person) => jobs({ person }),
                )}
              />
            ) : (
              <p className="text-ink-soft">No followed job yet.</p>
            )}
          </Beside>
        </>
      )}
    </>
  );
}

/** The charts draw themselves from data: where each mark leads is said ahead. */
function hrefsOf(keys: readonly string[], hrefOf: (key: string) => string): Record<string, string> {
  return Object.fromEntries(keys.map((key) => [key, hrefOf(key)]));
}

/** A chart with what it rests on beside it, under it where there is no room. */
function Beside(props: { title: string; words: readonly string[]; children: ReactNode }) {
  return (
    <Section title={props.title} className="border-t border-hairline pt-5">
      <div className="grid grid-cols-[minmax(0,1fr)] gap-x-10 gap-y-3 desk:grid-cols-[minmax(0,42rem)_minmax(14rem,1fr)]">
        {props.children}
        <ul className="grid max-w-prose content-start gap-2 text-small text-ink-soft">
          {props.words.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </div>
    </Section>
  );
}

function moneyOf(
  costs: Awaited<ReturnType<typeof listCauseCosts>>,
  { hourCostCents, currency }: Awaited<ReturnType<typeof findCallbackRule>>,
) {
  const centsOf = (each: (typeof costs)[number]) => each.moneyCents + each.hours * (hourCostCents ?? 0);
  const total = costs.reduce((sum, each) => sum + centsOf(each), 0);
  const hours = costs.reduce((sum, each) => sum + each.hours, 0);
  const hourWords =
    hourCostCents === null
      ? `${hours.toFixed(0)} hours of work have no price yet and are not in it; give one under Callbacks, Causes and costs.`
      : `Hours of work at ${moneyWords(hourCostCents, currency)} each, as the company says, with travel, refrigerant, parts and goodwill.`;
  return {
    words: `${moneyWords(Math.round(total), currency)} in all. ${hourWords}`,
    unpriced: costs.reduce((sum, each) => sum + each.unpriced, 0),
    bars: costs.map((each) => ({
      key: each.ownCauseId ?? each.causeCode ?? "",
      words: causeWords(each.causeCode, each.ownWords === null ? null : { words: each.ownWords }),
      callbacks: each.callbacks,
      ofWeakProof: each.ofWeakProof,
      costWords: moneyWords(Math.round(centsOf(each)), currency),
    })),
  };
}
