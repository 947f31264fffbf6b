import { writeTable } from "@/lib/registry/import/read-table";

/** One thing that happened to a circuit, as an inspector reads it. */
export interface RecordLine {
  readonly on: string;
  readonly what: string;
  readonly refrigerant: string;
  /** Into the circuit; negative out of it; null where no mass moved. */
  readonly grams: number | null;
  readonly result: string;
  readonly person: string;
  readonly certificate: string;
  readonly method: string;
  readonly source: string;
  /** Of the log entry it rests on, SHA-256 over its canonical form. */
  readonly digest: string;
}

export interface InspectorRecord {
  readonly company: string;
  readonly ruleSet: "us" | "eu";
  readonly leakRateMethod: string;
  readonly appliance: string;
  readonly identity: string;
  readonly owner: string;
  readonly location: string;
  readonly refrigerant: string;
  readonly fullChargeKg: number | null;
  readonly fullChargeMethod: string;
  readonly coverage: { readonly text: string; readonly source: string; readonly mark: string } | null;
  readonly from: string;
  readonly to: string;
  readonly lines: readonly RecordLine[];
  /** There were more lines than one paper takes: ask for a shorter period. */
  readonly cut: boolean;
  /** Over everything above. */
  readonly digest: string;
}

export const RECORD_COLUMNS = [
  "date",
  "what",
  "refrigerant",
  "kg_into_circuit",
  "result",
  "by",
  "certificate",
  "method",
  "source",
  "entry_sha256",
] as const;

/** The record as a CSV file: what it is about in the first lines' own columns, then a line for each thing that happened. */
export function writeRecordTable(record: InspectorRecord): string {
  const about = [record.owner, record.appliance, record.location];
  return writeTable(
    ["owner", "appliance", "location", ...RECORD_COLUMNS, "record_sha256"],
    record.lines.map((line) => [...about, ...cells(line), record.digest]),
  );
}

function cells(line: RecordLine): string[] {
  const { on, what, refrigerant, grams, result, person, certificate, method, source, digest } = line;
  const kg = grams === null ? "" : (grams / 1000).toFixed(3);
  return [on, what, refrigerant, kg, result, person, certificate, method, source, digest];
}
