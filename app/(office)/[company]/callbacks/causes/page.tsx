import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { requireMember } from "@/lib/auth/session";
import { findCallbackRule, listOwnCauses } from "@/lib/db/callbacks";
import { withTenant } from "@/lib/db/tenant";
import { callbackCauseCodes, callbackCauseWord } from "@/lib/work/callback-causes";
import { addCause, changeCallbackRule, retireCause } from "../actions";

export const metadata: Metadata = { title: "Causes and costs of callbacks" };

export default async function CausesPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const { companyId } = await requireMember(company, "supervisor", "owner");
  const { own, rule } = await withTenant(companyId, async (tx) => ({
    own: await listOwnCauses(tx, { retired: true }),
    rule: await findCallbackRule(tx),
  }));
  return (
    <>
      <PageHeader title="Causes and costs of callbacks" back={{ href: `/${company}/callbacks`, label: "Callbacks" }} />
      <Section title="What a return costs" lead="Without a price hours are counted and left out of the money.">
        <RegisterForm
          key={`${rule.hourCostCents} ${rule.currency}`}
          action={changeCallbackRule}
          hidden={{ company }}
          submit="Save"
          saved="Cost saved"
          values={{
            hourCost: rule.hourCostCents === null ? "" : String(rule.hourCostCents / 100),
            currency: rule.currency,
          }}
          parts={[
            {
              fields: [
                { name: "hourCost", label: "An hour of work", kind: "number", unit: rule.currency, optional: true },
                { name: "currency", label: "Currency", kind: "text", hint: "Three letters: USD, EUR." },
              ],
            },
          ]}
        />
      </Section>
      <Section title="Causes everybody has">
        <ul className="grid list-disc gap-1 pl-5">
          {callbackCauseCodes.map((code) => (
            <li key={code}>{callbackCauseWord[code]}</li>
          ))}
        </ul>
      </Section>
      <Section title="Your own causes" lead="A cause that is put away stays on the callbacks that name it.">
        <ul className="grid">
          {own.map(({ id, words, retiredAt }) => (
            <li key={id} className="flex flex-wrap items-center justify-between gap-3 border-b border-hairline py-1">
              <span>
                {words} {retiredAt && <span className="text-ink-soft">(put away)</span>}
              </span>
              <form action={retireCause}>
                <input type="hidden" name="company" value={company} />
                <input type="hidden" name="causeId" value={id} />
                {retiredAt && <input type="hidden" name="back" value="yes" />}
                <SubmitButton kind="quiet">
                  {retiredAt ? "Bring back" : "Put away"}
                  <span className="sr-only"> {words}</span>
                </SubmitButton>
              </form>
            </li>
          ))}
          {own.length === 0 && <li className="text-ink-soft">None yet.</li>}
        </ul>
        <RegisterForm
          action={addCause}
          hidden={{ company }}
          submit="Add the cause"
          saved="Cause added"
          again
          values={{}}
          parts={[{ fields: [{ name: "words", label: "Another cause", kind: "text" }] }]}
        />
      </Section>
    </>
  );
}
