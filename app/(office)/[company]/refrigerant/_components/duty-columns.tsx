import { StateMark } from "@/components/ui/state-mark";
import type { Column } from "@/components/ui/table";
import { BEARER_WORDS, type Bearer, DUTY_WORDS, type DutyCode, MARK_WORDS } from "@/lib/duties";
import { dateInFull } from "@/lib/work/site-time";

/** A duty as the due list and its circuit's page both show it. */
export interface ShownDuty {
  readonly code: DutyCode;
  readonly text: string;
  readonly dueBy: string | null;
  readonly doneOn: string | null;
  readonly whose: Bearer;
  readonly source: string;
  readonly mark: keyof typeof MARK_WORDS;
}

/** Columns of a duty: by when, what, whose it is and where it stands. */
export function dutyColumns<Row>(of: (row: Row) => ShownDuty, todayAt: (row: Row) => string) {
  return {
    due: { key: "due", header: "Last day", cell: (row) => <DutyState duty={of(row)} today={todayAt(row)} /> },
    what: {
      key: "what",
      header: "What",
      rowHeader: true,
      cell: (row) => (
        <span className="grid">
          <strong>{DUTY_WORDS[of(row).code] ?? of(row).code}</strong>
          <span className="font-normal text-small text-ink-soft">{of(row).text}</span>
        </span>
      ),
    },
    whose: { key: "whose", header: "Whose duty", cell: (row) => BEARER_WORDS[of(row).whose] ?? of(row).whose },
    source: { key: "source", header: "Source", cell: (row) => <SourceWords {...of(row)} /> },
  } as const satisfies Record<string, Column<Row>>;
}

/** Where a rule stands and how sure that is. */
export function SourceWords({ source, mark }: Pick<ShownDuty, "source" | "mark">) {
  return (
    <span className="text-small">
      {source} <span className="text-ink-soft">({MARK_WORDS[mark]})</span>
    </span>
  );
}

function DutyState({ duty: { doneOn, dueBy }, today }: { duty: ShownDuty; today: string }) {
  if (doneOn !== null) return <StateMark state="proven" word={`done ${dateInFull(doneOn)}`} />;
  if (dueBy === null) return <StateMark state="waiting" word="after the one before it" />;
  return dueBy < today ? (
    <StateMark state="refused" word={`late since ${dateInFull(dueBy)}`} />
  ) : (
    <StateMark state="needs-you" word={`by ${dateInFull(dueBy)}`} />
  );
}
