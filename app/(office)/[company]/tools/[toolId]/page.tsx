import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArchiveButton } from "@/components/registry/archive-button";
import { RegisterForm } from "@/components/registry/register-form";
import { PageHeader } from "@/components/ui/page-header";
import { StateMark } from "@/components/ui/state-mark";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listActiveMembers } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { findTool } from "@/lib/db/tools";
import { ToolId } from "@/lib/ids";
import { toolFormParts, toolValues } from "../_components/tool-parts";
import { changeTool, retireTool } from "../actions";

export const metadata: Metadata = { title: "Tool" };

export default async function ToolPage(props: { params: Promise<{ company: string; toolId: string }> }) {
  const { company, toolId } = await props.params;
  const { companyId } = await requireMember(company, ...office);
  const id = ToolId.safeParse(toolId);
  if (!id.success) notFound();
  const { tool, people } = await withTenant(companyId, async (tx) => ({
    tool: await findTool(tx, id.data),
    people: await listActiveMembers(tx),
  }));
  if (!tool) notFound();
  return (
    <>
      <PageHeader
        title={tool.name}
        lead={tool.retiredAt && <StateMark state="waiting" word="Retired" />}
        back={{ href: `/${company}/tools`, label: "Tools" }}
        actions={
          <ArchiveButton
            action={retireTool}
            hidden={{ company, toolId: tool.id }}
            archived={tool.retiredAt !== null}
            name={tool.name}
            words={{ away: "Retire", back: "Bring back", isAway: "retired", isBack: "is back in use" }}
          />
        }
      />
      <RegisterForm
        action={changeTool}
        hidden={{ company, toolId: tool.id }}
        parts={toolFormParts(people)}
        values={toolValues(tool)}
        submit="Save"
        cancel={`/${company}/tools`}
      />
    </>
  );
}
