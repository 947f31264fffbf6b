import type { Metadata } from "next";
import { FallingList } from "@/components/registry/falling-list";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { HoldPicture } from "@/components/work/hold-picture";
import { JobStateMark } from "@/components/work/marks";
import { requireMember } from "@/lib/auth/session";
import { listExceptions } from "@/lib/db/exceptions";
import { withTenant } from "@/lib/db/tenant";
import { stepName } from "@/lib/hvac/procedure";
import { dayAt, whenAt } from "@/lib/work/site-time";
import { LiveRefresh } from "../_components/live-refresh";
import { reviewQuarantined } from "./actions";
import { AnswerOverride } from "./answer-override";

export const metadata: Metadata = { title: "Exceptions" };

/** A short list of decisions with what is needed to take them; below, tools about to fall out of date. */
export default async function ExceptionsPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const member = await requireMember(company, "supervisor", "owner");
  const today = dayAt(new Date(), member.timeZone);
  const found = await withTenant(member.companyId, (tx) => listExceptions(tx, today));
  const nothing = found.asked.length + found.toReview.length + found.quarantined.length === 0;
  return (
    <>
      <LiveRefresh company={company} kinds={["job", "quarantine", "tool", "cylinder"]} />
      <PageHeader title="Exceptions" lead="Decisions that wait for you, and what needs a second look." />
      {nothing && <EmptyState title="Nothing waits for a decision" />}
      {found.asked.length > 0 && (
        <Section
          title="Overrides asked for"
          lead="Allowed, the step counts as weak proof forever. Recovery and failed tightness tests cannot be overridden."
        >
          {found.asked.map(({ job, ask, hold }) => (
            <article key={ask.ask} className="grid gap-3 border-b border-hairline pb-4">
              <h3 className="flex flex-wrap gap-x-4">
                <Link href={`/${company}/jobs/${job.id}`}>Job {String(job.number)}</Link>
                <span className="font-semibold">{stepName(ask.step)}</span>
                <span className="text-ink-soft">
                  {job.unit}, {job.customer}
                </span>
              </h3>
              <p className="max-w-prose">
                {ask.why}{" "}
                <span className="text-ink-soft">
                  Asked by {found.names.get(ask.askedBy) ?? "somebody no longer here"}.
                </span>
              </p>
              <Reasons of={job.missing.filter((each) => each.step === ask.step).map((each) => each.text)} />
              {hold && (
                <HoldPicture
                  title={`The hold of job ${job.number}`}
                  evidence={hold.evidence}
                  readings={hold.readings}
                  criteria={hold.criteria}
                  refrigerant={hold.refrigerant}
                />
              )}
              {member.roles.includes("supervisor") ? (
                <AnswerOverride company={company} jobId={job.id} ask={ask.ask} />
              ) : (
                <p className="text-ink-soft">A supervisor answers.</p>
              )}
            </article>
          ))}
        </Section>
      )}
      {found.toReview.length > 0 && (
        <Section title="Jobs to look at">
          <ul className="grid">
            {found.toReview.map((job) => (
              <li key={job.id} className="grid gap-1 border-b border-hairline py-2">
                <span className="flex flex-wrap gap-x-4">
                  <Link href={`/${company}/jobs/${job.id}`}>Job {String(job.number)}</Link>
                  <JobStateMark state={job.state} />
                  <span className="text-ink-soft">
                    {job.unit}, {job.customer}
                  </span>
                </span>
                <Reasons of={[...job.reviews, ...job.alarms]} />
              </li>
            ))}
          </ul>
        </Section>
      )}
      {found.quarantined.length > 0 && (
        <Section title="Received, but not taken into a log" lead="Kept as it came; nothing is dropped.">
          <ul className="grid">
            {found.quarantined.map((each) => (
              <li
                key={each.id}
                className="flex flex-wrap items-center justify-between gap-3 border-b border-hairline py-2"
              >
                <span>
                  {each.message}{" "}
                  <span className="text-ink-soft">
                    From {each.person.name}, {whenAt(each.receivedAt, member.timeZone)}.
                  </span>
                </span>
                {member.roles.includes("supervisor") && (
                  <form action={reviewQuarantined}>
                    <input type="hidden" name="company" value={company} />
                    <input type="hidden" name="id" value={each.id} />
                    <SubmitButton kind="quiet">Looked at</SubmitButton>
                  </form>
                )}
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section
        title="Tools and cylinders"
        lead="Out of date now or within 30 days; they weaken the proof of every job they are used on."
      >
        {found.falling.length === 0 && <p className="text-ink-soft">Everything is in date.</p>}
        <FallingList company={company} falling={found.falling} today={today} />
      </Section>
    </>
  );
}

function Reasons({ of }: { of: readonly string[] }) {
  if (of.length === 0) return null;
  return (
    <ul className="grid list-disc pl-5 text-small">
      {of.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  );
}
