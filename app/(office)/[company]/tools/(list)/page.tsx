import type { Metadata } from "next";
import Link from "next/link";
import { InDateMark } from "@/components/registry/in-date-mark";
import { toolKindWord } from "@/components/registry/words";
import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";
import { Quantity } from "@/components/ui/quantity";
import { StateMark } from "@/components/ui/state-mark";
import { Table } from "@/components/ui/table";
import { FilterLinks } from "@/components/work/filter-links";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { withTenant } from "@/lib/db/tenant";
import { listTools } from "@/lib/db/tools";
import { judgeTool } from "@/lib/registry/tool";
import { dayAt } from "@/lib/work/site-time";

export const metadata: Metadata = { title: "Tools" };

type Tool = Awaited<ReturnType<typeof listTools>>[number];

export default async function ToolsPage(props: {
  params: Promise<{ company: string }>;
  searchParams: Promise<{ show?: string | string[] }>;
}) {
  const { company } = await props.params;
  const member = await requireMember(company);
  const mayChange = office.some((role) => member.roles.includes(role));
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
            cell: ({ id, name }) => (mayChange ? <Link href={`${base}/${id}`}>{name}</Link> : name),
          },
          { key: "kind", header: "Kind", cell: ({ kind }) => toolKindWord[kind] },
          { key: "serial", header: "Serial", className: "font-mono", cell: ({ serial }) => serial || "–" },
          { key: "holder", header: "Held by", cell: ({ holder }) => holder?.name ?? "–" },
          { key: "standing", header: "In date", cell: (tool) => <Standing tool={tool} today={today} /> },
          { key: "facts", header: "What it can", cell: (tool) => <Ability tool={tool} /> },
        ]}
      />
    </>
  );
}

function Standing({ tool, today }: { tool: Tool; today: string }) {
  const { calibration, oil } = judgeTool(tool, today);
  return (
    <span className="grid">
      {calibration !== "not-asked" && (
        <InDateMark lastDay={tool.calibrationDueOn} today={today} none="Calibration not known" />
      )}
      {oil === "due" && <StateMark state="needs-you" word={`Oil has run ${tool.oilRunHours} h: change it`} />}
      {oil === "not-known" && <StateMark state="cannot-say" word="Oil hours not known" />}
      {oil === "fresh" && (
        <span>
          oil <Quantity value={tool.oilRunHours} unit="h" digits={1} />
        </span>
      )}
      {calibration === "not-asked" && oil === "not-asked" && (
        <span className="text-ink-soft">nothing to keep in date</span>
      )}
    </span>
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
