/** What can change under somebody's eyes, by the name the database tells it under. */
export const CHANGE_KINDS = ["job", "visit", "call", "order", "quarantine", "tool", "cylinder", "away"] as const;
export type ChangeKind = (typeof CHANGE_KINDS)[number];

/** That something of the company changed; what it is now is asked for by who may see it. */
export interface Change {
  readonly kind: ChangeKind;
  readonly id: string;
}

/** One notice of the database, `company kind id`; null for anything else. */
export function readNotice(payload: string | undefined): { company: string; change: Change } | null {
  const [company, kind, id, ...more] = (payload ?? "").split(" ");
  if (!company || !id || more.length > 0 || !isChangeKind(kind)) return null;
  return { company, change: { kind, id } };
}

export function isChangeKind(kind: unknown): kind is ChangeKind {
  return CHANGE_KINDS.includes(kind as ChangeKind);
}
