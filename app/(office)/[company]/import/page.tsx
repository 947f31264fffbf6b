import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { PageHeader } from "@/components/ui/page-header";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { ImportDesk } from "./_components/import-desk";

export const metadata: Metadata = { title: "Import a file" };

export default async function ImportPage({ params }: { params: Promise<{ company: string }> }) {
  const { company } = await params;
  await requireMember(company, ...office);
  return (
    <>
      <PageHeader
        title="Import customers, sites and units"
        lead="One line a customer, a site or a unit; a unit's line names its customer and its site. What is there already is found and left as it is. All of the file comes in, or nothing."
        back={{ href: `/${company}/customers`, label: "Customers" }}
        actions={<LinkButton href={`/${company}/import/export`}>Export what is there</LinkButton>}
      />
      <ImportDesk company={company} />
    </>
  );
}
