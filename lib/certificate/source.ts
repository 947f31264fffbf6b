import type { JobState, LogEntry, Proof } from "@/lib/hvac/procedure";
import type { TraceId } from "@/lib/ids";
import type { KnownTrace } from "@/lib/sync/trace";

/** What a certificate is made of: the log with the state it folds to, and the names the log has no words for. */
export interface CertificateSource {
  readonly companyName: string;
  readonly job: {
    readonly number: number;
    readonly customer: string;
    readonly site: {
      readonly name: string;
      readonly street: string;
      readonly city: string;
      readonly timeZone: string;
    };
    readonly unit: {
      readonly name: string;
      readonly maker: string;
      readonly model: string;
      readonly serial: string;
      readonly place: string;
    };
    readonly circuitName: string;
  };
  /** Names of the people of the log, by id. */
  readonly names: ReadonlyMap<string, string>;
  readonly entries: readonly LogEntry[];
  readonly traces: ReadonlyMap<TraceId, KnownTrace>;
  readonly state: JobState;
  readonly proof: Proof;
  /** Where the paper can be checked; null on a paper without a link. */
  readonly checkUrl: string | null;
}

/** The name of a person of the log, also of one the register no longer names. */
export function nameOf({ names }: Pick<CertificateSource, "names">, person: string | null): string {
  return (person !== null && names.get(person)) || "somebody no longer here";
}
