import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { RegisterForm } from "@/components/registry/register-form";
import { Link } from "@/components/ui/link";
import { PageHeader } from "@/components/ui/page-header";
import { Facts, Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { StrengthMark, Urgency } from "@/components/work/marks";
import { requireMember } from "@/lib/auth/session";
import { findCallback, findCallbackRule, listOwnCauses } from "@/lib/db/callbacks";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";
import { callbackCauseCodes, callbackCauseWord } from "@/lib/work/callback-causes";
import { causeWords, originReason } from "@/lib/work/callback-words";
import { dateInFull, whenInFull } from "@/lib/work/site-time";
import { confirmCallback, dismissCallback } from "../actions";

export const metadata: Metadata = { title: "Callback" };

const stateMark = {
  proposed: { state: "needs-you", word: "To decide" },
  confirmed: { state: "refused", word: "Confirmed callback" },
  "not-related": { state: "waiting", word: "Not related" },
} as const;

/** One return with the job it likely comes from, and the decision about it. */
export default async function CallbackPage(props: { params: Promise<{ company: string; orderId: string }> }) {
  const { company, orderId } = await props.params;
  const member = await requireMember(company, "supervisor", "owner");
  if (!isUuid(orderId)) notFound();
  const read = await withTenant(member.companyId, async (tx) => ({
    found: await findCallback(tx, orderId),
    causes: await listOwnCauses(tx, { retired: false }),
    rule: await findCallbackRule(tx),
  }));
  if (!read.found) notFound();
  const { callback, origins, windowDays } = read.found;
  const { workOrder, originJob } = callback;
  const call = workOrder.serviceCall;
  const hidden = { company, orderId, version: String(callback.version) };
  const money = { kind: "number", unit: read.rule.currency, optional: true } as const;
  const amount = (cents: number | null) => (cents === null ? "" : String(cents / 100));
  return (
    <>
      <PageHeader
        title={`Is work order ${workOrder.number} a callback?`}
        lead={`${call.customer.name}, ${call.site.name}`}
        back={{ href: `/${company}/callbacks`, label: "Callbacks" }}
      />
      <Facts
        columns={2}
        items={[
          { term: "State", value: <StateMark {...stateMark[callback.state as keyof typeof stateMark]} /> },
          {
            term: "Came in",
            value: (
              <>
                {dateInFull(callback.cameOn)},{" "}
                <Link href={`/${company}/work-orders/${workOrder.id}`}>work order {String(workOrder.number)}</Link>
              </>
            ),
          },
          { term: "The caller said", value: call.symptom },
          { term: "Urgency", value: <Urgency urgency={call.urgency} /> },
          {
            term: "Likely from",
            value: (
              <>
                <Link href={`/${company}/jobs/${originJob.id}`}>Job {String(originJob.number)}</Link>,{" "}
                {originJob.circuit.equipment.name}, {originJob.circuit.name}
              </>
            ),
          },
          { term: "Why", value: originReason(callback.basis, callback.daysBetween) },
          { term: "Its proof", value: <StrengthMark strength={originJob.outcomes[0]?.strength ?? null} /> },
          {
            term: "Decided",
            value: callback.decider
              ? `${callback.decider.name}, ${whenInFull(callback.decidedAt!, member.timeZone)}${
                  callback.state === "confirmed" ? `: ${causeWords(callback.causeCode, callback.ownCause)}` : ""
                }`
              : "not yet",
          },
        ]}
      />
      {call.urgency === "planned" && callback.state === "proposed" && (
        <p className="max-w-prose text-ink-soft">
          This was taken as planned work; a callback is a return nobody planned.
        </p>
      )}
      <Section
        title={callback.state === "confirmed" ? "Change what was confirmed" : "It is a callback"}
        lead="Counts in the quality figures on the job it comes from. Costs may be left empty and added later."
      >
        <RegisterForm
          key={callback.version}
          action={confirmCallback}
          hidden={hidden}
          submit={callback.state === "confirmed" ? "Save" : "Confirm the callback"}
          saved="Callback saved"
          values={{
            originJobId: originJob.id,
            cause: callback.causeCode ?? callback.ownCauseId ?? "",
            workHours: callback.workHours === null ? "" : String(callback.workHours),
            travel: amount(callback.travelCents),
            refrigerant: amount(callback.refrigerantCents),
            parts: amount(callback.partsCents),
            goodwill: amount(callback.goodwillCents),
            note: callback.state === "confirmed" ? callback.note : "",
          }}
          parts={[
            {
              fields: [
                {
                  name: "originJobId",
                  label: "The job it comes from",
                  kind: "select",
                  hint: `Closed on this unit within ${windowDays} days before.`,
                  choices: [
                    ...origins.map((each) => ({
                      value: each.jobId,
                      label: `Job ${each.number}, ${each.circuitName}, closed ${dateInFull(each.closedOn)}`,
                    })),
                    ...(origins.some(({ jobId }) => jobId === originJob.id)
                      ? []
                      : [{ value: originJob.id, label: `Job ${originJob.number}` }]),
                  ],
                },
                {
                  name: "cause",
                  label: "Cause",
                  kind: "select",
                  emptyChoice: "Choose",
                  choices: [
                    ...callbackCauseCodes.map((code) => ({ value: code, label: callbackCauseWord[code] })),
                    ...read.causes.map(({ id, words }) => ({ value: id, label: words })),
                  ],
                },
                { name: "workHours", label: "Hours of work", kind: "number", unit: "h", optional: true },
                { name: "travel", label: "Travel", ...money },
                { name: "refrigerant", label: "Refrigerant", ...money },
                { name: "parts", label: "Parts", ...money },
                { name: "goodwill", label: "Goodwill", hint: "What was given or not charged.", ...money },
                { name: "note", label: "Note", kind: "area", optional: true },
              ],
            },
          ]}
        />
      </Section>
      {callback.state !== "not-related" && (
        <Section
          title="It has nothing to do with it"
          lead="Stays on the list of what was set aside, and can be taken back."
        >
          <RegisterForm
            key={`not ${callback.version}`}
            action={dismissCallback}
            hidden={hidden}
            submit="Not related"
            saved="Set aside as not related"
            values={{ note: "" }}
            parts={[{ fields: [{ name: "note", label: "Why not", kind: "area", optional: true }] }]}
          />
        </Section>
      )}
    </>
  );
}
