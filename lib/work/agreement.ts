import type { Entry, LogEntry, LogEntryOf } from "@/lib/hvac/procedure";

export type Agreement = LogEntryOf<"work-agreed">;

/** What the customer agreed to last; null while nobody has recorded any agreement. Corrected entries count as they were corrected. */
export function standingAgreement(entries: readonly LogEntry[]): Agreement | null {
  const replaced = new Set(entries.map(({ supersedes }) => supersedes?.entry));
  const standing = entries.filter(
    (entry): entry is Agreement => entry.kind === "work-agreed" && !replaced.has(entry.id),
  );
  return standing.sort((a, b) => (a.deviceAt < b.deviceAt ? -1 : 1)).at(-1) ?? null;
}

const HOW = {
  "signed-here": "signed here",
  "spoken-here": "said here",
  "by-phone": "by phone",
  "with-office": "with the office",
} as const;

/** "Up to 400.00 USD, B. Harrow, by phone": what it may cost and who said so. */
export function agreementWords({ by, how, limit }: Extract<Entry, { kind: "work-agreed" }>["body"]): string {
  const most = limit ? `Up to ${limit.amount.toFixed(2)} ${limit.currency}` : "No limit named";
  return `${most}, ${by}, ${HOW[how]}`;
}
