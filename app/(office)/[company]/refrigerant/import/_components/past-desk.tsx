"use client";

import { useState, useTransition } from "react";
import { Button } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { Banner, ErrorNotice } from "@/components/ui/notices";
import { Table } from "@/components/ui/table";
import { TextArea } from "@/components/ui/text-input";
import type { UnitSystem } from "@/lib/registry/company";
import { bringPastList, type PastFailure, type PastPreview } from "../actions";

/** Paste a list, see line by line what it would do, then bring it in: all of it or nothing. */
export function PastDesk({ company, system }: { company: string; system: UnitSystem }) {
  const [text, setText] = useState("");
  const [preview, setPreview] = useState<PastPreview | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const [pending, start] = useTransition();

  function send(carryOut: boolean) {
    start(async () => {
      const outcome = await bringPastList({ company, text, carryOut });
      setFailure(outcome.ok ? null : failureText(outcome.error));
      setPreview(outcome.ok ? outcome.value : null);
    });
  }
  return (
    <div className="grid gap-6">
      <form
        className="grid gap-4"
        onSubmit={(event) => {
          event.preventDefault();
          send(false);
        }}
      >
        <label className="grid justify-items-start gap-1">
          <span className="font-medium">A file</span>
          <input
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            className="control h-auto py-2"
            onChange={async (event) => {
              const file = event.target.files?.[0];
              if (file) setText(await file.text());
              setPreview(null);
            }}
          />
        </label>
        <TextArea
          label="or its lines, pasted"
          hint="Headings: Serial (or Customer and Unit), Full charge lb or kg, Installed, Added on, Added lb or kg. A line for each addition."
          mono
          rows={6}
          value={text}
          onChange={(event) => {
            setText(event.target.value);
            setPreview(null);
          }}
          spellCheck={false}
        />
        <div>
          <Button type="submit" kind={preview ? "quiet" : "action"} pending={pending} pendingWord="Reading">
            See what it would do
          </Button>
        </div>
      </form>
      {failure && <ErrorNotice happened={failure} safe="Nothing was brought in." />}
      {preview?.done && (
        <Banner kind="sent" action={<Link href={`/${company}/refrigerant/due`}>See what is due</Link>}>
          Brought in: {preview.done.charges} charges, {preview.done.additions} additions.
        </Banner>
      )}
      {preview && !preview.done && preview.errors.length > 0 && (
        <>
          <ErrorNotice happened="Some lines have to be mended first." safe="Nothing is brought in until all can be." />
          <Table
            caption="The faults"
            rows={preview.errors}
            rowKey={({ lineNumber, column }) => `${lineNumber} ${column}`}
            columns={[
              { key: "line", header: "Line", numeric: true, cell: ({ lineNumber }) => lineNumber },
              { key: "column", header: "Column", cell: ({ column }) => column },
              { key: "message", header: "What is wrong", cell: ({ message }) => message },
            ]}
          />
        </>
      )}
      {preview && !preview.done && preview.errors.length === 0 && (
        <>
          <Table
            caption={`${preview.count} lines`}
            rows={preview.lines}
            rowKey={({ lineNumber }) => String(lineNumber)}
            maxHeight="28rem"
            columns={[
              { key: "line", header: "Line", numeric: true, cell: ({ lineNumber }) => lineNumber },
              { key: "unit", header: "Unit", cell: ({ found }) => found },
              {
                key: "charge",
                header: "Full charge",
                cell: ({ fullChargeGrams: grams }) => (grams ? massText(grams, system) : "as it is"),
              },
              {
                key: "added",
                header: "Added",
                cell: ({ addedOn, addedGrams }) =>
                  addedOn && addedGrams ? (
                    <>
                      {massText(addedGrams, system)} on {addedOn}
                    </>
                  ) : (
                    "–"
                  ),
              },
            ]}
          />
          <div>
            <Button kind="action" pending={pending} pendingWord="Bringing it in" onClick={() => send(true)}>
              Bring the list in
            </Button>
          </div>
        </>
      )}
    </div>
  );
}

/** Here without the engine's unit code, which would come along to the browser; a pound is 453.592 37 g by definition. */
function massText(grams: number, system: UnitSystem): string {
  return system === "us" ? `${(grams / 453.59237).toFixed(2)} lb` : `${(grams / 1000).toFixed(3)} kg`;
}

function failureText(failure: PastFailure): string {
  switch (failure.code) {
    case "no-unit-column":
      return "No column names the unit: head one Serial, or Customer and Unit.";
    case "empty":
      return "There is no line under the headings.";
    case "not-text":
      return "This is not a text file. Save it as CSV (UTF-8).";
    case "malformed-request":
      return "The page is out of step with the server. Load it again.";
    case "quote-not-closed":
    case "cells-do-not-fit":
      return `Line ${failure.lineNumber} cannot be read: look at its quotation marks and commas.`;
    default:
      return "The list is too large. Split it.";
  }
}
