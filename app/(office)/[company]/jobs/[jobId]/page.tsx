import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { BookMass } from "@/components/registry/measures";
import { LinkButton } from "@/components/ui/button";
import { Ladder } from "@/components/ui/ladder";
import { Link } from "@/components/ui/link";
import { Banner } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { JobStateMark, StrengthMark } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { readJob } from "@/lib/db/job-summary";
import { findJob, listMemberNames } from "@/lib/db/jobs";
import { listPictures } from "@/lib/db/pictures";
import { withTenant } from "@/lib/db/tenant";
import { stepName } from "@/lib/hvac/procedure";
import { JobId } from "@/lib/ids";
import { unitSystemOf } from "@/lib/registry/company";
import { agreementWords, standingAgreement } from "@/lib/work/agreement";
import { jobKindWord } from "@/lib/work/words";
import { LiveRefresh } from "../../_components/live-refresh";
import { JobLog } from "./_components/job-log";
import { JobPictures } from "./_components/job-pictures";
import { Overrides } from "./_components/overrides";
import { Proofs } from "./_components/proofs";

export const metadata: Metadata = { title: "Circuit job" };

/** A job as the office and the supervisor see it: what is proven, what is missing, what happened, and the decisions that wait. */
export default async function JobPage({ params }: { params: Promise<{ company: string; jobId: string }> }) {
  const { company, jobId } = await params;
  const member = await requireMember(company, ...office);
  const id = JobId.safeParse(jobId);
  if (!id.success) notFound();
  const system = unitSystemOf(member.ruleSet);
  const found = await withTenant(member.companyId, async (tx) => {
    const job = await findJob(tx, id.data);
    if (!job) return null;
    const pictures = await listPictures(tx, id.data);
    return { job, pictures, names: await listMemberNames(tx), ...(await readJob(tx, id.data)) };
  });
  if (!found) notFound();
  const { job, state, proof, entries, traces, names, pictures } = found;
  const agreed = standingAgreement(entries);
  const { serviceCall: call } = job.workOrder;
  return (
    <>
      <LiveRefresh company={company} kinds={["job"]} id={job.id} />
      <PageHeader
        title={`Job ${job.number}`}
        lead={`${job.circuit.equipment.name}, ${job.circuit.name}. ${call.customer.name}, ${call.site.name}.`}
        back={{ href: `/${company}/work-orders/${job.workOrder.id}`, label: `Work order ${job.workOrder.number}` }}
        actions={
          <>
            <LinkButton href={`/${company}/jobs/${job.id}/certificate`}>Certificate</LinkButton>
            <LinkButton href={`/${company}/jobs/${job.id}/sheet`}>Close-out sheet</LinkButton>
          </>
        }
      />
      {state.certificate === "stale" && (
        <Banner kind="problem">
          An entry came after the job was closed. It is open again and its sheet is out of date.
        </Banner>
      )}
      <div className="grid gap-8 wide:grid-cols-[15rem_minmax(0,1fr)]">
        <Ladder
          label="Procedure"
          rungs={state.steps.map((step) => ({
            id: step.step,
            name: stepName(step.step),
            state: step.status,
            ...(step.settledBy === "override" && { word: "Allowed by a supervisor" }),
            ...(step.settledBy === "skip" && { word: "Left out on its grounds" }),
          }))}
          {...(state.openStep && { currentId: state.openStep })}
        />
        <div className="grid content-start gap-8">
          <Facts
            columns={2}
            items={[
              { term: "State", value: <JobStateMark state={job.state} /> },
              { term: "Proof", value: <StrengthMark strength={job.strength} /> },
              { term: "Kind", value: jobKindWord[state.kind] },
              { term: "Refrigerant", value: refrigerantWords(state.circuit?.refrigerant) },
              { term: "Next", value: `${state.next.step ? `${stepName(state.next.step)}: ` : ""}${state.next.text}` },
              { term: "Agreed", value: agreed ? agreementWords(agreed.body) : "nothing recorded" },
              {
                term: "Recovered, charged",
                value: (
                  <>
                    <BookMass grams={state.mass.recoveredKg * 1000} system={system} />,{" "}
                    <BookMass grams={state.mass.chargedKg * 1000} system={system} />
                  </>
                ),
              },
            ]}
          />
          {state.missingForClose.length > 0 && (
            <Section title="Missing before it may close">
              <ul className="grid list-disc gap-1 pl-5">
                {state.missingForClose.map((each) => (
                  <li key={`${each.code} ${each.step}`}>{each.text}</li>
                ))}
              </ul>
            </Section>
          )}
          {state.status === "closed" && proof.reasons.length > 0 && (
            <Section title="What limits the proof">
              <ul className="grid list-disc gap-1 pl-5">
                {proof.reasons.map((each) => (
                  <li key={each.code}>{each.text}</li>
                ))}
              </ul>
            </Section>
          )}
          {(state.reviews.length > 0 || state.alarms.length > 0) && (
            <Section title="Look at this">
              <ul className="grid list-disc gap-1 pl-5">
                {[...state.reviews, ...state.alarms].map((each) => (
                  <li key={`${each.code} ${each.text}`}>{each.text}</li>
                ))}
              </ul>
            </Section>
          )}
          <Overrides
            company={company}
            jobId={job.id}
            state={state}
            names={names}
            canAnswer={member.roles.includes("supervisor")}
          />
          <Proofs state={state} entries={entries} traces={traces} />
          <JobPictures
            company={company}
            jobId={id.data}
            entries={entries}
            arrived={pictures}
            names={names}
            timeZone={call.site.timeZone}
            mayErase={member.roles.some((role) => role === "owner" || role === "supervisor")}
          />
          <JobLog entries={entries} state={state} names={names} timeZone={call.site.timeZone} />
          <p className="text-small text-ink-soft">
            To keep: <a href={`/api/${company}/jobs/${job.id}/receipts`}>the log with the server's signature</a> under
            each entry. It shows later that this server held them, unchanged, since when it says.
          </p>
          <p className="text-small text-ink-soft">
            The unit:{" "}
            <Link href={`/${company}/equipment/${job.circuit.equipment.id}`}>{job.circuit.equipment.name}</Link>, with
            all its earlier jobs.
          </p>
        </div>
      </div>
    </>
  );
}

function refrigerantWords(
  fact: { state: string; refrigerant?: string; safetyClass?: string | null } | undefined,
): string {
  if (!fact || fact.state === "unknown") return "not identified";
  if (fact.state === "mixed") return "mixed";
  return `${fact.refrigerant}, class ${fact.safetyClass}`;
}
