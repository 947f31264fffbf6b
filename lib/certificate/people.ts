import type { LogEntry, LogEntryOf } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import { type CertificateSource, nameOf } from "./source";

export interface PersonLine {
  readonly name: string;
  readonly did: string;
  readonly certificate: string | null;
}

/** Who answers for what on the paper, in the order of the work. */
export function listPeople(
  source: CertificateSource,
  counted: readonly LogEntry[],
  closing: LogEntryOf<"job-closed">,
): PersonLine[] {
  const did = new Map<string, string[]>();
  const note = (person: string, what: string) => did.set(person, [...(did.get(person) ?? []), what]);
  for (const entry of counted) {
    if (entry.kind === "step-recorded" || entry.kind === "step-skipped") note(entry.person, stepName(entry.body.step));
  }
  for (const { answeredBy, step, stands } of source.state.overrides) {
    if (answeredBy !== null && stands) note(answeredBy, `allowed the override of ${stepName(step)}`);
  }
  note(closing.person, "closed the job");
  const certificates = new Map(
    counted.flatMap((entry) =>
      entry.kind === "step-recorded" && entry.body.step === "records" && entry.body.evidence.signedByCertificate
        ? [[entry.body.evidence.signedBy as string, entry.body.evidence.signedByCertificate] as const]
        : [],
    ),
  );
  return [...did].map(([person, what]) => ({
    name: nameOf(source, person),
    did: [...new Set(what)].join(", "),
    certificate: certificates.get(person) ?? null,
  }));
}
