"use client";

import { SelectField } from "@/components/ui/select-field";
import { StateMark } from "@/components/ui/state-mark";
import { TextInput } from "@/components/ui/text-input";
import { listToolFaults } from "@/lib/registry/tool-faults";
import { fieldsWords } from "@/lib/words/en/fields";
import { toolsWords } from "@/lib/words/en/tools";
import { valueAt } from "../form/draft";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import type { JobTool } from "../job/job-heading";
import { siteDay } from "../today/site-clock";
import { toolName } from "./tool-facts";

const OTHER = "other";

/** Which of the company's tools was used; what is known about it is filled into the form, another one is named. */
export function ToolChoice(props: {
  /** Where the tool stands in the evidence: "gauge". */
  at: string;
  kind: string;
  label: string;
  /** What the register knows that the evidence asks for. */
  fill?: (tool: JobTool) => Readonly<Record<string, unknown>>;
}) {
  const { at, label } = props;
  const { job } = useJobHere();
  const { draft, set, open } = useForm();
  const tools = job.heading.tools.filter(({ kind }) => kind === props.kind);
  const current = (valueAt(draft, at) ?? {}) as { toolId?: string | null; label?: string };
  const chosen = tools.find(({ id }) => id === current.toolId);
  const value = chosen ? chosen.id : current.label !== undefined || tools.length === 0 ? OTHER : "";
  function choose(id: string) {
    const tool = tools.find((each) => each.id === id);
    if (id === "") return;
    set(
      at,
      tool
        ? { ...current, toolId: tool.id, label: toolName(tool), ...props.fill?.(tool) }
        : { ...current, toolId: null, label: "" },
    );
  }
  const problem = open.get(`${at}.label`) ?? open.get(`${at}.toolId`) ?? open.get(at);
  return (
    <div className="grid gap-3" data-open-field={problem ? "" : undefined}>
      {tools.length > 0 && (
        <SelectField
          label={label}
          value={value}
          error={value === OTHER ? undefined : problem}
          emptyChoice={fieldsWords.choose}
          choices={[
            ...tools.map((tool) => ({ value: tool.id, label: toolName(tool) })),
            { value: OTHER, label: toolsWords.anotherOne },
          ]}
          onChange={(event) => choose(event.target.value)}
        />
      )}
      {value === OTHER && (
        <TextInput
          label={tools.length > 0 ? toolsWords.whichOne : label}
          hint={toolsWords.makeItFindableName}
          error={problem}
          value={current.label ?? ""}
          maxLength={120}
          onChange={(event) => set(at, { ...current, toolId: null, label: event.target.value })}
        />
      )}
      {chosen && <ToolStanding tool={chosen} />}
    </div>
  );
}

/** What a supervisor would ask about the tool. */
function ToolStanding({ tool }: { tool: JobTool }) {
  const faults = listToolFaults(tool, siteDay(Date.now(), useJobHere().job.heading.job.site.timeZone));
  if (faults.length > 0)
    return faults.map((fault) => <StateMark key={fault} state="needs-you" word={toolsWords.itsFault(fault)} />);
  const due = tool.calibrationDueOn?.slice(0, 10);
  if (tool.kind !== "pump") return due ? <StateMark state="proven" word={toolsWords.calibratedUntil(due)} /> : null;
  if (tool.oilRunHours === null) return <StateMark state="cannot-say" word={toolsWords.oilHoursNotKnown} />;
  return <StateMark state="proven" word={toolsWords.oilHasRun(Math.round(tool.oilRunHours * 10) / 10)} />;
}
