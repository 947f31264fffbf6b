import type { LogItem } from "../log/corrections";
import type { CircuitFacts, CriteriaRow, JobKindOrUnknown } from "../log/entry";
import { keyOrderFree } from "../log/merge";
import type { OrderedLog } from "../log/order";
import { TEMPLATE_VERSION } from "./template";

/** What is known of the job and its circuit from some point of the log. */
export interface Knowledge {
  readonly opened: boolean;
  readonly kind: JobKindOrUnknown;
  readonly templateVersion: number;
  readonly circuit: CircuitFacts | null;
  readonly rows: readonly CriteriaRow[];
  /** Subjects on which entries written side by side say different things. */
  readonly contested: readonly ContestedSubject[];
}
export type ContestedSubject = "job-opened" | "kind" | "refrigerant" | "criteria";

type KnowledgeKind = "job-opened" | "job-kind-set" | "refrigerant-identified" | "criteria-replaced";
const SUBJECTS: Readonly<Record<KnowledgeKind, ContestedSubject>> = {
  "job-opened": "job-opened",
  "job-kind-set": "kind",
  "refrigerant-identified": "refrigerant",
  "criteria-replaced": "criteria",
};

export function isKnowledge(item: LogItem): boolean {
  return item.original.kind in SUBJECTS;
}

/** Reads what is known, by everything or by what one author had seen; equal views are read once. */
export function knowledgeReader(log: OrderedLog, items: readonly LogItem[]) {
  const relevant = items.filter(isKnowledge);
  const versions = relevant.flatMap((item) => item.versions);
  const read = new Map<string, Knowledge>();
  const readWhere = (visible: (index: number) => boolean): Knowledge => {
    const key = versions.map(({ index }) => (visible(index) ? "1" : "0")).join("");
    const known = read.get(key);
    if (known !== undefined) return known;
    const fresh = knowledgeFrom(log, relevant, visible);
    read.set(key, fresh);
    return fresh;
  };
  return {
    /** All that is known now. */
    now: readWhere(() => true),
    /** What the author of the entry at `index` knew when writing it. */
    asSeenFrom: (index: number) => readWhere((earlier) => log.before(earlier, index)),
  };
}

interface Statement {
  readonly index: number;
  readonly body: unknown;
  readonly contested: boolean;
}

function knowledgeFrom(log: OrderedLog, items: readonly LogItem[], visible: (index: number) => boolean): Knowledge {
  const contested = new Set<ContestedSubject>();
  const statementsOf = <K extends KnowledgeKind>(kind: K): Statement[] =>
    items.flatMap((item) => {
      if (item.original.kind !== kind) return [];
      const seen = item.versions.filter(({ index }) => visible(index));
      const last = seen.at(-1);
      if (last === undefined) return [];
      const split = seen.some((version) => version !== last && !log.before(version.index, last.index));
      return [{ index: item.index, body: last.entry.body, contested: split }];
    });
  /** The statement no other one of its kind has followed; saying the same thing twice is not a contest. */
  const latest = (kind: KnowledgeKind, statements: readonly Statement[]): Statement | undefined => {
    const standing = statements.filter((one) => !statements.some((other) => log.before(one.index, other.index)));
    if (standing.some((one) => one.contested) || disagree(standing)) contested.add(SUBJECTS[kind]);
    return standing.at(-1);
  };

  const openings = statementsOf("job-opened");
  const firsts = openings.filter((one) => !openings.some((other) => log.before(other.index, one.index)));
  if (disagree(firsts) || firsts.some((one) => one.contested)) contested.add("job-opened");
  const opening = firsts[0]?.body as OpenedBody | undefined;
  const kindSet = latest("job-kind-set", statementsOf("job-kind-set"))?.body as
    | { jobKind: JobKindOrUnknown }
    | undefined;
  const identified = latest("refrigerant-identified", statementsOf("refrigerant-identified"))?.body as
    | { refrigerant: CircuitFacts["refrigerant"] }
    | undefined;
  const replaced = statementsOf("criteria-replaced").map((one) => ({
    ...one,
    row: (one.body as { row: CriteriaRow }).row,
  }));
  for (const one of replaced) {
    const rivals = replaced.filter(
      (other) => other.row.criteria.step === one.row.criteria.step && other.row.origin === one.row.origin,
    );
    latest("criteria-replaced", rivals);
  }
  const registered = opening?.circuit ?? null;
  const circuit = registered && identified ? { ...registered, refrigerant: identified.refrigerant } : registered;
  const brought = replaced.filter(({ row }) => mayBeReplaced(row)).map(({ row }) => row);
  const rows = [...(opening?.criteria ?? []), ...brought];
  return {
    opened: opening !== undefined,
    kind: kindSet?.jobKind ?? opening?.kind ?? "unknown",
    templateVersion: opening?.templateVersion ?? TEMPLATE_VERSION,
    circuit,
    rows,
    contested: [...contested].sort(),
  };
}

function disagree(statements: readonly Statement[]): boolean {
  return statements.length > 1 && new Set(statements.map(({ body }) => keyOrderFree(body))).size > 1;
}

/** Whether two views agree on the circuit; most records are then judged once. */
export function sameCircuit(a: Knowledge, b: Knowledge): boolean {
  return a.circuit === b.circuit || keyOrderFree(a.circuit) === keyOrderFree(b.circuit);
}
export function sameRows(a: Knowledge, b: Knowledge): boolean {
  if (a.rows.length !== b.rows.length) return false;
  return a.rows.every((row, index) => row === b.rows[index]) || keyOrderFree(a.rows) === keyOrderFree(b.rows);
}

interface OpenedBody {
  readonly kind: JobKindOrUnknown;
  readonly templateVersion: number;
  readonly circuit: CircuitFacts;
  readonly criteria: readonly CriteriaRow[];
}

/** On the job only a maker's instruction or a company's tightening comes in; law and defaults come with the program. */
export function mayBeReplaced(row: CriteriaRow): boolean {
  return row.origin === "maker" || row.origin === "company";
}
