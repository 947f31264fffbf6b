import type { StepId } from "@/lib/hvac/procedure";
import { findTemplate, stepName } from "@/lib/hvac/procedure";
import { cannotDoWords } from "@/lib/words/en/cannot-do";
import type { WayOut } from "./cannot-do-form";
import { stepOf } from "./job-context";
import type { OpenJob } from "./use-job";

/** What may be said instead of doing the step, by what this kind of job and this log allow. */
export function listWaysOut(step: StepId, job: OpenJob): WayOut[] {
  const template = findTemplate(job.state.kindInForce, job.state.templateVersion);
  const { override, settledBy } = stepOf(job, step);
  const ways: WayOut[] = [];
  if (settledBy === null) {
    for (const reason of template?.steps[step].skipReasons ?? []) {
      if (reason !== "other") ways.push({ key: `skip ${reason}`, kind: "skip", reason, ...cannotDoWords.skip[reason] });
    }
    if (override === "may-ask" || override === "refused") {
      ways.push({
        key: "override",
        kind: "override",
        title: cannotDoWords.askASupervisorToAllow,
        lead: cannotDoWords.goingOnWithout(stepName(step)),
      });
    }
  }
  ways.push(
    {
      key: "left",
      kind: "left",
      title: cannotDoWords.leaveTheJob,
      lead: cannotDoWords.leaveTheJobLead,
    },
    {
      key: "opened",
      kind: "opened",
      title: cannotDoWords.openedAgain,
      lead: cannotDoWords.openedAgainLead,
    },
    {
      key: "kind",
      kind: "kind",
      title: cannotDoWords.anotherKind,
      lead: cannotDoWords.anotherKindLead,
    },
    {
      key: "refrigerant",
      kind: "refrigerant",
      title: cannotDoWords.anotherRefrigerant,
      lead: cannotDoWords.anotherRefrigerantLead,
    },
  );
  if (step === "pressure_test" || step === "leak_check" || step === "evacuate" || step === "hold") {
    ways.push({
      key: "criteria",
      kind: "criteria",
      title: cannotDoWords.makersCriteria,
      lead: cannotDoWords.makersCriteriaLead,
    });
  }
  ways.push({ key: "note", kind: "note", title: cannotDoWords.writeANote, lead: cannotDoWords.writeANoteLead });
  return ways;
}
