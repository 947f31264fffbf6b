import { InDateMark } from "@/components/registry/in-date-mark";
import { Quantity } from "@/components/ui/quantity";
import { StateMark } from "@/components/ui/state-mark";
import type { findTool } from "@/lib/db/tools";
import { judgeTool } from "@/lib/registry/tool";
import { dateInFull } from "@/lib/work/site-time";

/** Whether a tool may be leaned on today, and why not. */
export function ToolStanding(props: { tool: NonNullable<Awaited<ReturnType<typeof findTool>>>; today: string }) {
  const { tool, today } = props;
  const { calibration, check, oil } = judgeTool(tool, today);
  const hours = Math.round((tool.oilRunHours ?? 0) * 10) / 10;
  return (
    <span className="grid gap-1">
      {tool.doubtedOn && (
        <StateMark state="refused" word={`In doubt since ${dateInFull(tool.doubtedOn)}: have it calibrated`} />
      )}
      {calibration !== "not-asked" && (
        <span>
          {tool.calibrationDueOn && "calibrated until "}
          <InDateMark lastDay={tool.calibrationDueOn} today={today} none="Calibration not known" />
        </span>
      )}
      {check !== "not-asked" && (
        <span>
          look due <InDateMark lastDay={tool.checkDueOn} today={today} />
        </span>
      )}
      {oil === "due" && <StateMark state="needs-you" word={`Oil has run ${hours} h: change it`} />}
      {oil === "not-known" && <StateMark state="cannot-say" word="Oil hours not known" />}
      {oil === "fresh" && (
        <span>
          oil <Quantity value={tool.oilRunHours} unit="h" digits={1} />
        </span>
      )}
      {calibration === "not-asked" && check === "not-asked" && oil === "not-asked" && !tool.doubtedOn && (
        <span className="text-ink-soft">nothing to keep in date</span>
      )}
    </span>
  );
}
