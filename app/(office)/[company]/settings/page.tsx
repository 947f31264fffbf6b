import type { Metadata } from "next";
import { RegisterForm } from "@/components/registry/register-form";
import { choicesOf, ruleSetWord } from "@/components/registry/words";
import { PageHeader } from "@/components/ui/page-header";
import { requireMember } from "@/lib/auth/session";
import { findCompany } from "@/lib/db/company";
import { withTenant } from "@/lib/db/tenant";
import { changeCompany } from "./actions";

export const metadata: Metadata = { title: "Settings" };

export default async function SettingsPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const { companyId } = await requireMember(company, "supervisor", "owner");
  const { name, timeZone, ruleSet, callbackWindowDays } = await withTenant(companyId, findCompany);
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
    </>
  );
}
