"use client";

import { choicesOf } from "@/components/registry/words";
import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { SelectField } from "@/components/ui/select-field";
import { StateMark } from "@/components/ui/state-mark";
import { Table } from "@/components/ui/table";
import { type ColumnMapping, isImportField } from "@/lib/registry/import/columns";
import type { ImportPreview } from "@/lib/registry/import/preview";
import { fieldWord, mappingText, warningText } from "./import-words";

/** The columns with what each is taken for, then what would be created, found and left, or refused. */
export function PreviewSheet(props: {
  preview: ImportPreview;
  pending: boolean;
  onMapping: (mapping: ColumnMapping) => void;
  onImport: () => void;
}) {
  const { preview, pending } = props;
  const { mapping, mappingError, errorCount, counts } = preview;
  const created = counts.customers.created + counts.sites.created + counts.units.created;
  return (
    <>
      <Section title="Columns" lead="Guessed from the headings; change what is wrong.">
        <div className="grid gap-4 wide:grid-cols-2 desk:grid-cols-3">
          {preview.headings.map((heading, column) => (
            <SelectField
              key={`${column} ${heading}`}
              label={heading || `Column ${column + 1}`}
              hint={<span className="block truncate">{preview.samples[column] || "no cell filled"}</span>}
              emptyChoice="Leave it out"
              choices={choicesOf(fieldWord)}
              value={mapping[column] ?? ""}
              disabled={pending}
              onChange={(event) => {
                const { value } = event.target;
                props.onMapping(
                  mapping.map((field, at) => (at !== column ? field : isImportField(value) ? value : null)),
                );
              }}
            />
          ))}
        </div>
        {mappingError && <ErrorNotice happened={mappingText(mappingError)} />}
      </Section>
      {!mappingError && (
        <Section
          title={`What would happen to ${preview.rowCount} lines`}
          actions={
            errorCount === 0 &&
            created > 0 && (
              <Button kind="action" pending={pending} pendingWord="Importing" onClick={props.onImport}>
                Import the file
              </Button>
            )
          }
        >
          {errorCount > 0 ? <Errors preview={preview} /> : <Outcome preview={preview} created={created} />}
        </Section>
      )}
    </>
  );
}

function Errors({ preview }: { preview: ImportPreview }) {
  const { errors, errorCount } = preview;
  return (
    <>
      <ErrorNotice
        happened={`${errorCount} ${errorCount === 1 ? "fault has" : "faults have"} to be mended first.`}
        safe="Nothing is imported until the whole file can be."
      />
      <Table
        caption={errorCount > errors.length ? `The first ${errors.length} faults` : "The faults"}
        rows={errors}
        rowKey={({ lineNumber, field }) => `${lineNumber} ${field}`}
        maxHeight="28rem"
        columns={[
          { key: "line", header: "Line", numeric: true, cell: ({ lineNumber }) => lineNumber },
          { key: "column", header: "Column", cell: ({ heading, field }) => heading ?? fieldWord[field] },
          { key: "message", header: "What is wrong", cell: ({ message }) => message },
        ]}
      />
    </>
  );
}

function Outcome({ preview, created }: { preview: ImportPreview; created: number }) {
  const { counts, warnings, lines, rowCount } = preview;
  const parts = [
    { name: "Customers", ...counts.customers },
    { name: "Sites", ...counts.sites },
    { name: "Units", ...counts.units },
  ];
  return (
    <>
      {created === 0 && <p>Everything in the file is on record already; there is nothing to import.</p>}
      <Table
        caption="Created, and found on record and left as it is"
        rows={parts}
        rowKey={({ name }) => name}
        columns={[
          { key: "name", header: "", cell: ({ name }) => name },
          { key: "created", header: "Created", numeric: true, cell: (part) => part.created },
          { key: "matched", header: "Already there", numeric: true, cell: (part) => part.matched },
        ]}
      />
      {warnings.length > 0 && (
        <ul className="grid gap-1">
          {warnings.map((warning) => (
            <li key={`${warning.lineNumber} ${warning.code}`}>
              <StateMark state="needs-you" word={`Line ${warning.lineNumber}`} /> {warningText(warning)}
            </li>
          ))}
        </ul>
      )}
      <Table
        caption={rowCount > lines.length ? `The first ${lines.length} of ${rowCount} lines` : "Line by line"}
        rows={lines}
        rowKey={({ lineNumber }) => String(lineNumber)}
        maxHeight="28rem"
        columns={[
          { key: "line", header: "Line", numeric: true, cell: ({ lineNumber }) => lineNumber },
          { key: "customer", header: "Customer", cell: ({ customer }) => <Named {...customer} /> },
          { key: "site", header: "Site", cell: ({ site }) => <Named {...site} /> },
          { key: "unit", header: "Unit", cell: ({ unit }) => <Named {...unit} /> },
        ]}
      />
    </>
  );
}

function Named(props: { name: string; standing: "new" | "there" | "none" }) {
  if (props.standing === "none") return <span className="text-ink-soft">–</span>;
  return (
    <>
      {props.name}{" "}
      <span className="text-small text-ink-soft">{props.standing === "new" ? "new" : "already there"}</span>
    </>
  );
}
