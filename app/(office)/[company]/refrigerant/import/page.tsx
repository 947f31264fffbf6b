import type { Metadata } from "next";
import { PageHeader } from "@/components/ui/page-header";
import { requireMember } from "@/lib/auth/session";
import { unitSystemOf } from "@/lib/registry/company";
import { PastDesk } from "./_components/past-desk";

export const metadata: Metadata = { title: "Import charges and past additions" };

export default async function PastImportPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  const { ruleSet } = await requireMember(company, "supervisor", "owner");
  return (
    <>
      <PageHeader
        title="Import charges and past additions"
        lead="From the list kept until now, so that leak rates and inspections do not begin at nothing. The units have to be in the register. What is in the books already is left alone."
        back={{ href: `/${company}/refrigerant/due`, label: "What is due" }}
      />
      <PastDesk company={company} system={unitSystemOf(ruleSet)} />
    </>
  );
}
