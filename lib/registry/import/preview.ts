import { err, ok, type Result } from "@/lib/result";
import { type ColumnMapping, guessMapping, judgeMapping, type MappingError } from "./columns";
import { judgeRows, type RowError } from "./judge-rows";
import { type ImportPlan, type ImportWarning, type Planned, planImport, type Register } from "./plan-import";
import { type ImportTable, readTable, type TableError } from "./read-table";

export const SHOWN_ROWS = 200;

type Standing = "new" | "there" | "none";

/** What an import would do, cut to what a screen can show; nothing in it is written yet. */
export interface ImportPreview {
  readonly headings: readonly string[];
  readonly mapping: ColumnMapping;
  readonly mappingError: MappingError | null;
  /** The first cells of each column, to recognise it by. */
  readonly samples: readonly string[];
  readonly rowCount: number;
  readonly errors: readonly RowError[];
  readonly errorCount: number;
  readonly warnings: readonly ImportWarning[];
  readonly counts: ImportPlan["counts"];
  readonly lines: readonly {
    readonly lineNumber: number;
    readonly customer: { readonly name: string; readonly standing: Standing };
    readonly site: { readonly name: string; readonly standing: Standing };
    readonly unit: { readonly name: string; readonly standing: Standing };
  }[];
}

const nothing = { created: 0, matched: 0 };

/** The file read, its columns guessed where no mapping is given, and the plan for it; or why the file cannot be read. */
export function previewImport(
  text: string,
  chosen: ColumnMapping | null,
  companyTimeZone: string,
  register: Register,
): Result<{ readonly preview: ImportPreview; readonly plan: ImportPlan | null }, TableError> {
  const read = readTable(text);
  if (!read.ok) return err(read.error);
  const table = read.value;
  const mapping = chosen?.length === table.headings.length ? chosen : guessMapping(table.headings);
  const shared = { headings: table.headings, mapping, samples: samplesOf(table), rowCount: table.rows.length };
  const mappingError = judgeMapping(mapping);
  if (mappingError) {
    const counts = { customers: nothing, sites: nothing, units: nothing };
    return ok({
      preview: { ...shared, mappingError, errors: [], errorCount: 0, warnings: [], counts, lines: [] },
      plan: null,
    });
  }
  const { rows, errors } = judgeRows(table, mapping, companyTimeZone);
  const plan = planImport(rows, register);
  const all = [...errors, ...plan.errors].sort((a, b) => a.lineNumber - b.lineNumber);
  const preview: ImportPreview = {
    ...shared,
    mappingError: null,
    errors: all.slice(0, SHOWN_ROWS),
    errorCount: all.length,
    warnings: plan.warnings.slice(0, SHOWN_ROWS),
    counts: plan.counts,
    lines: plan.rows.slice(0, SHOWN_ROWS).map(({ row, customer, site, unit }) => ({
      lineNumber: row.lineNumber,
      customer: { name: row.customer.name, standing: standingOf(customer) },
      site: { name: row.site?.name ?? "", standing: standingOf(site) },
      unit: { name: row.unit?.name ?? "", standing: standingOf(unit) },
    })),
  };
  return ok({ preview, plan: all.length === 0 ? plan : null });
}

const standingOf = (planned: Planned | null): Standing =>
  planned === null ? "none" : "create" in planned ? "new" : "there";

function samplesOf({ headings, rows }: ImportTable): readonly string[] {
  return headings.map((_heading, column) =>
    rows
      .map(({ cells }) => cells[column] ?? "")
      .filter(Boolean)
      .slice(0, 3)
      .join(" · ")
      .slice(0, 80),
  );
}
