import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { PrintButton } from "@/components/ui/print-button";
import { PrintSheet } from "@/components/ui/print-sheet";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { HoldPicture } from "@/components/work/hold-picture";
import { JobStateMark, StrengthMark } from "@/components/work/marks";
import { requireMember } from "@/lib/auth/session";
import { listCriteria } from "@/lib/certificate";
import { type ReadJob, readJob } from "@/lib/db/job-summary";
import { findJob, listMemberNames } from "@/lib/db/jobs";
import { withTenant } from "@/lib/db/tenant";
import { stepName } from "@/lib/hvac/procedure";
import { DEFERRAL_LINE } from "@/lib/hvac/rulebook";
import { JobId } from "@/lib/ids";
import { evidenceLines } from "@/lib/work/evidence-lines";
import { listHolds } from "@/lib/work/holds";
import { whenInFull } from "@/lib/work/site-time";
import { jobKindWord } from "@/lib/work/words";

export const metadata: Metadata = { title: "Close-out sheet" };

/** The job on paper: what was done, measured and proven, by whom, by which criteria, and what it does not prove. */
export default async function SheetPage({ params }: { params: Promise<{ company: string; jobId: string }> }) {
  const { company, jobId } = await params;
  const member = await requireMember(company);
  const id = JobId.safeParse(jobId);
  if (!id.success) notFound();
  const found = await withTenant(member.companyId, async (tx) => {
    const job = await findJob(tx, id.data);
    return job && { job, names: await listMemberNames(tx), ...(await readJob(tx, id.data)) };
  });
  if (!found) notFound();
  const { job, state, proof, names } = found;
  const { serviceCall: call } = job.workOrder;
  const { timeZone } = call.site;
  const unit = job.circuit.equipment;
  const hold = listHolds(found).find((each) => each.counts);
  const closing = found.entries.find((entry) => entry.id === state.closedBy);
  return (
    <PrintSheet>
      <header className="flex flex-wrap items-start justify-between gap-4">
        <div className="grid gap-1">
          <h1 className="text-title">Close-out sheet, job {String(job.number)}</h1>
          <p>{member.companyName}</p>
        </div>
        <PrintButton>Print this sheet</PrintButton>
      </header>
      <p className="flex flex-wrap gap-6">
        <JobStateMark state={job.state} />
        <span>
          Proof: <StrengthMark strength={job.strength} />
        </span>
        {state.certificate === "stale" && (
          <StateMark state="needs-you" word="Entries came after closing: out of date" />
        )}
      </p>
      <Facts
        columns={2}
        items={[
          { term: "Customer", value: call.customer.name },
          { term: "Site", value: [call.site.name, call.site.street, call.site.city].filter(Boolean).join(", ") },
          {
            term: "Unit",
            value: [unit.name, unit.maker, unit.model, unit.serial && `serial ${unit.serial}`]
              .filter(Boolean)
              .join(", "),
          },
          { term: "Circuit", value: job.circuit.name },
          {
            term: "Refrigerant",
            value:
              state.circuit?.refrigerant.state === "identified"
                ? `${state.circuit.refrigerant.refrigerant}, class ${state.circuit.refrigerant.safetyClass}`
                : "not identified",
          },
          { term: "Kind of job", value: jobKindWord[state.kind] },
          { term: "Recovered", value: `${state.mass.recoveredKg.toFixed(2)} kg` },
          { term: "Charged", value: `${state.mass.chargedKg.toFixed(2)} kg` },
        ]}
      />
      {hold && (
        <HoldPicture
          title="The isolated hold the proof rests on"
          evidence={hold.evidence}
          readings={hold.readings}
          criteria={hold.criteria}
          refrigerant={hold.refrigerant}
        />
      )}
      {state.status === "closed" && proof.reasons.length > 0 && (
        <Section title="What limits the proof">
          <ul className="grid list-disc pl-5">
            {proof.reasons.map((each) => (
              <li key={each.code}>{each.text}</li>
            ))}
          </ul>
        </Section>
      )}
      <Section title="Steps">
        <ol className="grid">
          {state.steps.map((step) => {
            const entry = found.entries.find((each) => each.id === step.entry);
            return (
              <li
                key={step.step}
                className="keep-together grid grid-cols-[10rem_minmax(0,1fr)] gap-x-4 border-b border-hairline py-2"
              >
                <span className="grid content-start">
                  <span className="font-semibold">{stepName(step.step)}</span>
                  <StateMark state={step.status} {...wordOf(step.settledBy)} />
                </span>
                <span className="grid content-start gap-0.5">
                  {entry?.kind === "step-recorded" &&
                    evidenceLines(entry.body).map((line) => <span key={line}>{line}</span>)}
                  {entry?.kind === "step-skipped" && <span>{entry.body.grounds.statement}</span>}
                  {step.verdict?.reasons.map((reason) => (
                    <span key={reason.code}>{reason.text}</span>
                  ))}
                  {entry && (
                    <span className="text-small text-ink-soft">
                      {names.get(entry.person) ?? "somebody no longer here"},{" "}
                      {whenInFull(new Date(entry.deviceAt), timeZone)}
                      {step.verdict && `, rules ${step.verdict.rulesVersion}`}
                    </span>
                  )}
                </span>
              </li>
            );
          })}
        </ol>
      </Section>
      <Criteria state={state} />
      {state.overrides.length > 0 && (
        <Section title="Overrides">
          <ul className="grid list-disc pl-5">
            {state.overrides.map((each) => (
              <li key={each.ask}>
                {stepName(each.step)}: {each.why}{" "}
                {each.answer === "none"
                  ? "Not answered."
                  : `${each.answer}, ${each.answerWhy} (${names.get(each.answeredBy ?? "") ?? "unknown"}).`}
              </li>
            ))}
          </ul>
        </Section>
      )}
      {state.missingForClose.length > 0 && (
        <Section title="Not proven: missing before this job may close">
          <ul className="grid list-disc pl-5">
            {state.missingForClose.map((each) => (
              <li key={`${each.code} ${each.step}`}>{each.text}</li>
            ))}
          </ul>
        </Section>
      )}
      <Section title="What this sheet shows, and what not">
        <p>
          It shows what was recorded on site and how it was judged, recomputed today from the stored readings. A hold
          shows dryness well and tightness only roughly; tightness is the nitrogen test and the check of every joint as
          well. It says no leak above the size each test could have shown, never no leak. A leaking isolation valve can
          hide a leak from a single gauge. {DEFERRAL_LINE}
        </p>
        {closing?.kind === "job-closed" && (
          <p className="break-all font-mono text-small">
            Closed {whenInFull(new Date(closing.deviceAt), timeZone)} by{" "}
            {names.get(closing.person) ?? "somebody no longer here"}. SHA-256 over the entries: {closing.body.digest}
          </p>
        )}
      </Section>
    </PrintSheet>
  );
}

function wordOf(settledBy: "record" | "skip" | "override" | null) {
  if (settledBy === "skip") return { word: "Left out on its grounds" };
  if (settledBy === "override") return { word: "Allowed by a supervisor" };
  return {};
}

function Criteria({ state }: Pick<ReadJob, "state">) {
  return (
    <Section title="Criteria and where they come from">
      <ul className="grid">
        {listCriteria(state).map(({ step, asked, sources }) => (
          <li key={step} className="grid grid-cols-[10rem_minmax(0,1fr)] gap-4 border-b border-hairline py-1.5">
            <span>{step}</span>
            <span>
              {asked} <span className="text-ink-soft">{sources}</span>
            </span>
          </li>
        ))}
      </ul>
    </Section>
  );
}
