import type { Entry } from "@/lib/hvac/procedure";
import { recordWords } from "@/lib/words/en/record";

/** What is wrong with one place of an entry. */
export interface EntryProblem {
  /** Place in the body, "evidence.gauge.location". */
  readonly path: string;
  readonly message: string;
}

/** The place of a problem that is not in the entry: the device has no room to save it. */
export const STORAGE = "storage";

/** The place of another one: the part of the program that checks entries is not on this device, and cannot be fetched. */
export const PROGRAM = "program";

/** Thrown inside the saving transaction, so that an entry the server would not read is never saved. */
export class EntryRefused extends Error {
  readonly problems: readonly EntryProblem[];
  constructor(problems: readonly EntryProblem[]) {
    super("the entry is not well formed");
    this.problems = problems;
  }
}

/** Loads the log's schema, which is kept out of the first page, and gives the check of one entry. */
export async function requireWellFormed(): Promise<(entry: Entry) => void> {
  const { entryWire } = await import("@/lib/hvac/schema");
  return (entry) => {
    const parsed = entryWire.safeParse(entry);
    if (parsed.success) return;
    throw new EntryRefused(
      parsed.error.issues.map((issue) => ({
        path: issue.path.slice(issue.path[0] === "body" ? 1 : 0).join("."),
        message: problemWords(issue),
      })),
    );
  };
}

function problemWords(issue: { code: string; message: string; input?: unknown; origin?: string }): string {
  if (issue.code === "invalid_type" || issue.code === "invalid_value" || issue.code === "invalid_union")
    return recordWords.stillToBeAnswered;
  if (issue.code === "too_small")
    return issue.origin === "number" ? recordWords.smallerThanCanBe : recordWords.stillToBeFilledIn;
  if (issue.code === "too_big") return recordWords.largerThanCanBe;
  return issue.message;
}
