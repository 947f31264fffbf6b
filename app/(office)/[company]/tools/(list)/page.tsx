import type { Metadata } from "next";
import { toolKindWord } from "@/components/registry/words";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { withTenant } from "@/lib/db/tenant";
import { listTools } from "@/lib/db/tools";
import { dayAt } from "@/lib/work/site-time";
import { ToolStanding } from "../_components/tool-standing";

export const metadata: Metadata = { title: "Tools" };

type Tool = Awaited<ReturnType<typeof listTools>>[number];

export default async function ToolsPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<{ show?: string | string[] }>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
  const mayOpen = mayChange || member.roles.includes("technician");
  const retired = (await props.searchParams).show === "retired";
  const tools = await withTenant(member.companyId, (tx) => listTools(tx, { retired }));
  const today = dayAt(new Date(), member.timeZone);
  const base = `/${company}/tools`;
  return (
    <>
      <PageHeader
        title="Tools"
        actions={
          mayChange && (
            <LinkButton kind="action" href={`${base}/new`}>
              Add a tool
            </LinkButton>
          )
        }
      />
      <FilterLinks
        label="Which tools"
        chosen={retired ? "retired" : "in-use"}
        filters={[
          { value: "in-use", label: "In use", href: base },
          { value: "retired", label: "Retired", href: `${base}?show=retired` },
        ]}
      />
      <Table
        caption={retired ? "Retired tools" : "Tools in use"}
        captionHidden
        narrow="cards"
        rows={tools}
        rowKey={({ id }) => id}
        empty={
          <EmptyState title={retired ? "Nothing is retired" : "No tools yet"}>
            {!retired &&
              "Pumps, gauges, recovery machines, scales: what a reading was taken with is part of its proof."}
          </EmptyState>
        }
        columns={[
          {
            key: "name",
            header: "Tool",
            cell: ({ id, name }) => (mayOpen ? <Link href={`${base}/${id}`}>{name}</Link> : name),
          },
          { key: "kind", header: "Kind", cell: ({ kind }) => toolKindWord[kind] },
          {
            key: "serial",
            header: "Serial",
            className: "font-mono whitespace-nowrap",
            cell: ({ serial }) => serial || "–",
          },
          { key: "holder", header: "Held by", cell: ({ holder }) => holder?.name ?? "–" },
          { key: "standing", header: "In date", cell: (tool) => <ToolStanding tool={tool} today={today} /> },
          { key: "facts", header: "What it can", cell: (tool) => <Ability tool={tool} /> },
        ]}
      />
    </>
  );
}

function Ability({ tool }: { tool: Tool }) {
  const facts = [
    tool.resolution !== null && `steps of ${tool.resolution} ${tool.resolutionUnit}`,
    tool.accuracyPercent !== null && `± ${tool.accuracyPercent} %`,
    tool.ultimateMicron !== null && `${tool.ultimateMicron} micron ultimate`,
    tool.litresPerSecond !== null && `${tool.litresPerSecond} L/s`,
    tool.madeOn !== null && `made ${tool.madeOn}`,
    tool.ratedFor.length > 0 && tool.ratedFor.join(" "),
  ].filter(Boolean);
  return facts.length > 0 ? facts.join(" · ") : "–";
}
