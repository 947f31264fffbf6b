import { v4, v7 } from "uuid";
import { describe, expect, test } from "vitest";
import { entryWire } from "@/lib/hvac/log/schema";
import type { EntryContent, LogEntry } from "@/lib/hvac/procedure";
import type { CompanyId, EntryId, InstallationId, JobId, PersonId } from "@/lib/ids";
import { makeEntry, unstamped } from "@/lib/sync/protocol";
import { type Agreement, agreementWords, standingAgreement } from "@/lib/work/agreement";

const author = {
  company: v4() as CompanyId,
  job: v4() as JobId,
  installation: v4() as InstallationId,
  person: v4() as PersonId,
};
const agreed = (by: string, amount: number | null): Agreement["body"] => ({
  by,
  how: "by-phone",
  scope: "Find and mend the leak",
  limit: amount === null ? null : { amount, currency: "USD" },
  signature: null,
});
function log(...contents: readonly EntryContent[]): LogEntry[] {
  return contents.map((content, index) =>
    unstamped(
      makeEntry(
        author,
        {
          id: v7() as EntryId,
          seq: index + 1,
          heads: [],
          deviceAt: `2026-01-05T1${index}:00:00.000Z`,
          clockOffsetMs: null,
        },
        content,
      ),
    ),
  );
}
const agreement = (body: Agreement["body"]): EntryContent => ({ kind: "work-agreed", body });

describe("what the customer agreed to", () => {
  test("is what they agreed to last, in whatever order the log is read", () => {
    const entries = log(agreement(agreed("B. Harrow", 400)), agreement(agreed("B. Harrow", 900)));
    expect(standingAgreement(entries)?.body.limit?.amount).toBe(900);
    expect(standingAgreement([...entries].reverse())?.body.limit?.amount).toBe(900);
  });

  test("is the correction where one was made, and nothing where nobody asked", () => {
    const [first] = log(agreement(agreed("B. Harrow", 4000)));
    const [, correction] = log(agreement(agreed("x", 1)), {
      ...agreement(agreed("B. Harrow", 400)),
      supersedes: { entry: first!.id, why: "a nought too many" },
    } as EntryContent);
    expect(standingAgreement([first!, correction!])?.body.limit?.amount).toBe(400);
    expect(standingAgreement([])).toBeNull();
  });

  test("says how much, who and how", () => {
    expect(agreementWords(agreed("B. Harrow", 400))).toBe("Up to 400.00 USD, B. Harrow, by phone");
    expect(agreementWords(agreed("B. Harrow", null))).toBe("No limit named, B. Harrow, by phone");
  });

  test.each([
    ["a limit of nothing", { limit: { amount: 0, currency: "USD" } }],
    ["a currency that is no code", { limit: { amount: 4, currency: "dollars" } }],
    ["nobody", { by: "" }],
  ])("cannot be %s", (_what, change) => {
    const [entry] = log(agreement(agreed("B. Harrow", 400)));
    const { stamp: _none, ...wire } = entry as LogEntry & { kind: "work-agreed" };
    expect(entryWire.safeParse(wire).success).toBe(true);
    expect(entryWire.safeParse({ ...wire, body: { ...(wire.body as object), ...change } }).success).toBe(false);
  });
});
