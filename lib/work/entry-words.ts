import type { Entry } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import { agreementWords } from "./agreement";
import { jobKindWord } from "./words";

/** What an entry says was done, in a few words. */
export function entryTitle(entry: Entry): string {
  switch (entry.kind) {
    case "job-opened":
      return "Job opened";
    case "job-kind-set":
      return `Kind of job set: ${jobKindWord[entry.body.jobKind]}`;
    case "refrigerant-identified":
      return entry.body.refrigerant.state === "identified"
        ? `Refrigerant identified: ${entry.body.refrigerant.refrigerant}`
        : `Refrigerant ${entry.body.refrigerant.state}`;
    case "criteria-replaced":
      return "Criteria taken from another document";
    case "work-agreed":
      return "Agreed with the customer";
    case "step-recorded":
      return `${stepName(entry.body.step)} recorded`;
    case "step-skipped":
      return `${stepName(entry.body.step)} left out`;
    case "circuit-opened":
      return "Circuit opened again";
    case "override-asked":
      return `Override asked: ${stepName(entry.body.step)}`;
    case "override-answered":
      return entry.body.granted ? "Override allowed" : "Override refused";
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

/** The sentence its author gave with it, if the kind has one. */
export function entryDetail(entry: Entry): string {
  switch (entry.kind) {
    case "job-kind-set":
    case "circuit-opened":
    case "override-asked":
    case "override-answered":
      return entry.body.why;
    case "refrigerant-identified":
      return entry.body.how;
    case "criteria-replaced":
      return `${entry.body.row.source}. ${entry.body.document}`;
    case "work-agreed":
      return `${agreementWords(entry.body)}. ${entry.body.scope}`;
    case "step-skipped":
      return entry.body.grounds.statement;
    case "left-for-today":
      return `Holding: ${entry.body.holding}. Tag: ${entry.body.tag}. ${entry.body.note}`;
    case "note":
      return entry.body.text;
    case "work-resumed":
      return entry.body.note ?? "";
    case "step-recorded":
      return ("note" in entry.body.evidence ? entry.body.evidence.note : null) ?? "";
    case "job-opened":
    case "job-closed":
      return "";
  }
}
