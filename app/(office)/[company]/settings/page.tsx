import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { choicesOf, ruleSetWord } from "@/components/registry/words";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { requireMember } from "@/lib/auth/session";
import { findCompany } from "@/lib/db/company";
import { withTenant } from "@/lib/db/tenant";
import type { CriteriaRow } from "@/lib/hvac/procedure";
import { defaultHoldCriteria, readTightenings } from "@/lib/registry/tightening";
import { changeCompany, changeTightenings } from "./actions";

export const metadata: Metadata = { title: "Settings" };

export default async function SettingsPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const { companyId } = await requireMember(company, "supervisor", "owner");
  const { name, timeZone, ruleSet, callbackWindowDays, criteria } = await withTenant(companyId, findCompany);
  return (
    <>
      <PageHeader title="Settings" />
      <RegisterForm
        action={changeCompany}
        hidden={{ company }}
        submit="Save"
        saved="Settings saved"
        values={{ name, timeZone, ruleSet, callbackWindowDays: String(callbackWindowDays) }}
        parts={[
          {
            fields: [
              { name: "name", label: "Company name, as shown", kind: "text" },
              {
                name: "timeZone",
                label: "Time zone of the office",
                kind: "text",
                suggestions: Intl.supportedValuesOf("timeZone"),
                hint: "Sites keep their own.",
              },
              {
                name: "ruleSet",
                label: "Rules the company works under",
                kind: "select",
                choices: choicesOf(ruleSetWord),
                hint: "Recovery levels, leak duties, and the units of the office follow.",
              },
              {
                name: "callbackWindowDays",
                label: "Callback window",
                kind: "number",
                unit: "days",
                hint: "A later order on the same circuit within it is proposed as a callback.",
              },
            ],
          },
        ]}
      />
      <Section
        title="Every isolated hold"
        lead="The company may ask for more than the default, never for less; the maker's written instruction for a unit goes before both. Holds for jobs opened from now on."
      >
        <RegisterForm
          action={changeTightenings}
          hidden={{ company }}
          submit="Save the company's criteria"
          saved="Criteria saved"
          values={tightened(readTightenings(criteria))}
          parts={[{ fields: tighteningFields }]}
        />
      </Section>
    </>
  );
}

const standard = defaultHoldCriteria();
const tighteningFields = [
  {
    name: "targetMicron",
    label: "Target before the hold, at most",
    unit: "micron",
    hint: `Default ${standard.targetMicron}.`,
  },
  { name: "holdMinutes", label: "Hold, at least", unit: "min", hint: `Default ${standard.holdMinutes}.` },
  {
    name: "maxFinalMicron",
    label: "Level at the end, at most",
    unit: "micron",
    hint: `Default ${standard.maxFinalMicron}.`,
  },
  {
    name: "maxSteadyRiseMicronPerMin",
    label: "Steady rise, at most",
    unit: "micron/min",
    hint: `Default ${standard.maxSteadyRiseMicronPerMin}; no published limit was found, this default is our own choice.`,
  },
].map((field) => ({ ...field, kind: "number" as const, optional: true }));

function tightened(rows: readonly CriteriaRow[]): Record<string, string> {
  const row = rows.find((each) => each.criteria.step === "hold");
  const values: Record<string, unknown> = { ...row?.criteria.values };
  const differs = (name: string) =>
    typeof values[name] === "number" && values[name] !== standard[name as keyof typeof standard];
  return Object.fromEntries(tighteningFields.map(({ name }) => [name, differs(name) ? String(values[name]) : ""]));
}
