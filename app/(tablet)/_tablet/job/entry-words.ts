import type { Entry } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";

/** One line that says what an entry is. */
export function entryTitle(entry: Entry): string {
  switch (entry.kind) {
    case "job-opened":
      return "Job opened";
    case "job-kind-set":
      return "Kind of job set";
    case "refrigerant-identified":
      return "Refrigerant identified";
    case "criteria-replaced":
      return "Criteria entered";
    case "work-agreed":
      return "Agreed with the customer";
    case "step-recorded":
      return `${stepName(entry.body.step)}${entry.supersedes ? ", corrected" : ""}`;
    case "step-skipped":
      return `${stepName(entry.body.step)} left out`;
    case "circuit-opened":
      return "Circuit opened";
    case "override-asked":
      return `Override asked for: ${stepName(entry.body.step)}`;
    case "override-answered":
      return entry.body.granted ? "Override granted" : "Override refused";
    case "left-for-today":
      return "Left for today";
    case "work-resumed":
      return "Work resumed";
    case "note":
      return "Note";
    case "job-closed":
      return "Job closed";
  }
}
