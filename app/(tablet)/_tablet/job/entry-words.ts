import type { Entry } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import { entriesWords } from "@/lib/words/en/entries";
import { fieldsWords } from "@/lib/words/en/fields";

/** One line that says what an entry is. */
export function entryTitle(entry: Entry): string {
  switch (entry.kind) {
    case "job-opened":
      return entriesWords.jobOpened;
    case "job-kind-set":
      return entriesWords.kindOfJobSet;
    case "refrigerant-identified":
      return entriesWords.refrigerantIdentified;
    case "criteria-replaced":
      return entriesWords.criteriaEntered;
    case "work-agreed":
      return entriesWords.agreedWithTheCustomer;
    case "step-recorded":
      return entriesWords.step(stepName(entry.body.step), entry.supersedes !== undefined);
    case "step-skipped":
      return entriesWords.stepLeftOut(stepName(entry.body.step));
    case "circuit-opened":
      return entriesWords.circuitOpened;
    case "override-asked":
      return entriesWords.overrideAsked(stepName(entry.body.step));
    case "override-answered":
      return entry.body.granted ? entriesWords.overrideGranted : entriesWords.overrideRefused;
    case "left-for-today":
      return entriesWords.leftForToday;
    case "work-resumed":
      return entriesWords.workResumed;
    case "note":
      return fieldsWords.note;
    case "job-closed":
      return entriesWords.jobClosed;
  }
}
