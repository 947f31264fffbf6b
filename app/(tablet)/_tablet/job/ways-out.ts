import type { StepId } from "@/lib/hvac/procedure";
import { findTemplate, type SkipReason, stepName } from "@/lib/hvac/procedure";
import type { WayOut } from "./cannot-do-form";
import { stepOf } from "./job-context";
import type { OpenJob } from "./use-job";

const skipTitles: Record<Exclude<SkipReason, "other">, { title: string; lead: string; shown: string }> = {
  "circuit-not-opened": {
    title: "Leave it out: the circuit is not opened",
    lead: "Only where nothing of the sealed circuit was touched.",
    shown: "All seals and joints of the circuit are as they were",
  },
  "no-port-touched": {
    title: "Leave it out: no gauge was fitted, no cap came off",
    lead: "Only where every port cap stayed on.",
    shown: "All caps are as they were",
  },
  "no-refrigerant-in-line-set": {
    title: "Leave it out: there is no refrigerant in the line set",
    lead: "Only where both service valves are still closed from the factory.",
    shown: "Both service valves are closed",
  },
};

/** What may be said instead of doing the step, by what this kind of job and this log allow. */
export function listWaysOut(step: StepId, job: OpenJob): WayOut[] {
  const template = findTemplate(job.state.kindInForce, job.state.templateVersion);
  const { override, settledBy } = stepOf(job, step);
  const ways: WayOut[] = [];
  if (settledBy === null) {
    for (const reason of template?.steps[step].skipReasons ?? []) {
      if (reason !== "other") ways.push({ key: `skip ${reason}`, kind: "skip", reason, ...skipTitles[reason] });
    }
    if (override === "may-ask" || override === "refused") {
      ways.push({
        key: "override",
        kind: "override",
        title: "Ask a supervisor to allow going on without it",
        lead: `Going on without "${stepName(step)}" counts as weak proof for good. Saved here now, answered when sent.`,
      });
    }
  }
  ways.push(
    {
      key: "left",
      kind: "left",
      title: "Leave the job for today",
      lead: "The circuit is left holding nitrogen, valved off or charged, and tagged. The job stays open.",
    },
    {
      key: "opened",
      kind: "opened",
      title: "The circuit had to be opened again",
      lead: "Takes the tightness tests, the evacuation and the hold back: they are done anew.",
    },
    {
      key: "kind",
      kind: "kind",
      title: "It is another kind of job",
      lead: "Set the kind that fits what was found.",
    },
    {
      key: "refrigerant",
      kind: "refrigerant",
      title: "The refrigerant is another one",
      lead: "Say what was identified, and how. Levels, cautions and checks follow it.",
    },
  );
  if (step === "pressure_test" || step === "leak_check" || step === "evacuate" || step === "hold") {
    ways.push({
      key: "criteria",
      kind: "criteria",
      title: "The maker's instruction asks for something else",
      lead: "Replaces our default for this step, with the document it stands in. A looser one makes the proof fair at most.",
    });
  }
  ways.push({ key: "note", kind: "note", title: "Write a note", lead: "Anything the next person should know." });
  return ways;
}
