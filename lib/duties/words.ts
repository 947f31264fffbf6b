import type { Mark } from "@/lib/hvac/rules/source";
import type { Bearer, DutyCode } from "./duty";

/** Stands wherever a legal duty is shown. */
export const DEFERRAL =
  "This is a reminder and no legal advice: the text in force goes before it, with its amendments, and so do state and local rules. Check dates before relying on them.";

export const BEARER_WORDS: Readonly<Record<Bearer, string>> = {
  "owner-or-operator": "Owner or operator",
  contractor: "Contractor",
  "owner-by-certified-person": "Operator, by a certified person",
};

/** How sure the program is of a figure. */
export const MARK_WORDS: Readonly<Record<Mark, string>> = {
  read: "read in the text",
  secondary: "read in a page that states it",
  computed: "computed",
  memory: "from memory, not read",
  "common-practice": "common practice",
  "own-choice": "our own choice",
};

export const DUTY_WORDS: Readonly<Record<DutyCode, string>> = {
  repair: "Repair",
  "initial-verification": "Initial verification test",
  "follow-up-verification": "Follow-up verification test",
  "retrofit-plan": "Plan to retrofit or retire",
  "retrofit-done": "Retrofit or retirement",
  "leak-inspection": "Leak inspection",
  "chronic-report": "Chronic leak report",
  "leak-detection": "Leak detection system",
  "leak-check": "Leak check",
  recheck: "Check after repair",
  "detection-check": "Check of the detection system",
};
