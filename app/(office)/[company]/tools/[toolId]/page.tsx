import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArchiveButton } from "@/components/registry/archive-button";
import { RegisterForm } from "@/components/registry/register-form";
import { toolKindWord } from "@/components/registry/words";
import { PageHeader } from "@/components/ui/page-header";
import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { listInstrumentTokens } from "@/lib/db/instrument-batches";
import { listActiveMembers } from "@/lib/db/members";
import { withTenant } from "@/lib/db/tenant";
import { readToolHistory } from "@/lib/db/tool-history";
import { findTool, listTools } from "@/lib/db/tools";
import { ToolId } from "@/lib/ids";
import { unitsOfGauge } from "@/lib/instruments/batch";
import { eventsOf } from "@/lib/registry/tool-event";
import { shownOf } from "@/lib/registry/tool-shown";
import { dayAt, whenInFull } from "@/lib/work/site-time";
import { InstrumentTokens } from "../_components/instrument-tokens";
import { ToolHistory } from "../_components/tool-history";
import { toolEventParts, toolFormParts, toolValues } from "../_components/tool-parts";
import { ToolStanding } from "../_components/tool-standing";
import { changeTool, retireTool, writeToolEvent } from "../actions";

export const metadata: Metadata = { title: "Tool" };

export default async function ToolPage(props: { params: Promise<{ company: string; toolId: string }> }) {
  const { company, toolId } = await props.params;
  const { companyId, roles, timeZone } = await requireMember(company, ...office, "technician");
  const id = ToolId.safeParse(toolId);
  if (!id.success) notFound();
  const { tool, people, all, history, tokens } = await withTenant(companyId, async (tx) => ({
    tool: await findTool(tx, id.data),
    people: await listActiveMembers(tx),
    all: await listTools(tx, { retired: false }),
    history: await readToolHistory(tx, id.data),
    tokens: await listInstrumentTokens(tx, id.data),
  }));
  if (!tool) notFound();
  const today = dayAt(new Date(), timeZone);
  const mayChange = office.some((role) => roles.includes(role));
  const events = eventsOf(tool.kind);
  const others = all.filter(({ id: other, kind, resolutionUnit }) => {
    return other !== tool.id && kind === tool.kind && resolutionUnit === tool.resolutionUnit;
  });
  const units = unitsOfGauge[tool.kind];
  const jobs = [...new Map(history.uses.map((use) => [use.jobId, `Job ${use.job.number}`]))].slice(0, 20);
  return (
    <>
      <PageHeader
        title={tool.name}
        lead={
          <>
            {toolKindWord[tool.kind]}
            {tool.holder && `, held by ${tool.holder.name}`}
            {tool.retiredAt && <StateMark state="waiting" word="Retired" />}
          </>
        }
        back={{ href: `/${company}/tools`, label: "Tools" }}
        actions={
          mayChange && (
            <ArchiveButton
              action={retireTool}
              hidden={{ company, toolId: tool.id }}
              archived={tool.retiredAt !== null}
              name={tool.name}
              words={{ away: "Retire", back: "Bring back", isAway: "retired", isBack: "is back in use" }}
            />
          )
        }
      />
      <Section title="How it stands">
        <ToolStanding tool={tool} today={today} />
      </Section>
      {events.length > 0 && (
        <Section title="Write down what was done">
          <RegisterForm
            action={writeToolEvent}
            hidden={{ company, toolId: tool.id }}
            parts={toolEventParts(
              tool,
              others,
              jobs.map(([jobId, words]) => ({ id: jobId, words })),
            )}
            values={{ what: events[0]!, onDay: today, result: "good" }}
            submit="Write it down"
            saved="Written down"
            again
          />
        </Section>
      )}
      <ToolHistory
        company={company}
        toolId={tool.id}
        timeZone={timeZone}
        ultimateMicron={tool.ultimateMicron}
        history={history}
      />
      {mayChange && units && !tool.retiredAt && (
        <InstrumentTokens
          company={company}
          toolId={tool.id}
          units={units}
          tokens={tokens.map(({ id: token, made_by, made_at, revoked_at }) => ({
            id: token,
            words: `Made ${whenInFull(made_at, timeZone)} by ${people.find(({ personId }) => personId === made_by)?.name ?? "somebody no longer here"}`,
            revoked: revoked_at !== null,
          }))}
        />
      )}
      {mayChange && (
        <Section title="What the register says of it">
          <RegisterForm
            action={changeTool}
            hidden={{ company, toolId: tool.id, shown: JSON.stringify(shownOf(tool)) }}
            parts={toolFormParts(people)}
            values={toolValues(tool)}
            submit="Save"
            key={`${tool.oilRunHours} ${tool.calibrationDueOn} ${tool.checkDueOn}`}
            cancel={`/${company}/tools`}
          />
        </Section>
      )}
    </>
  );
}
