"use client";

import { useState, useTransition } from "react";
import { Button } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { Banner, ErrorNotice } from "@/components/ui/notices";
import { TextArea } from "@/components/ui/text-input";
import { useUndo } from "@/components/ui/undo";
import type { ColumnMapping } from "@/lib/registry/import/columns";
import type { ImportPreview } from "@/lib/registry/import/preview";
import { MAX_IMPORT_BYTES } from "@/lib/registry/import/read-table";
import { preview as askPreview, carryOut, type ImportFailure } from "../actions";
import { failureText } from "./import-words";
import { PreviewSheet } from "./preview-sheet";

/** Paste or upload, see what would happen, mend the columns, then import; nothing is written before the last button. */
export function ImportDesk({ company }: { company: string }) {
  const [text, setText] = useState("");
  const [fileName, setFileName] = useState("");
  const [preview, setPreview] = useState<ImportPreview | null>(null);
  const [failure, setFailure] = useState<ImportFailure | null>(null);
  const [done, setDone] = useState<ImportPreview["counts"] | null>(null);
  const [pending, start] = useTransition();
  const said = useUndo();

  function look(file: string, mapping: ColumnMapping | null) {
    setDone(null);
    const bytes = new Blob([file]).size;
    if (bytes > MAX_IMPORT_BYTES) return refuse({ code: "too-big", bytes });
    start(async () => {
      const outcome = await askPreview({ company, text: file, mapping: mapping ? [...mapping] : null });
      if (!outcome.ok) return refuse(outcome.error);
      setFailure(null);
      setPreview(outcome.value);
    });
  }
  function refuse(error: ImportFailure) {
    setFailure(error);
    setPreview(error.code === "has-errors" ? error.preview : null);
  }
  function bringIn(mapping: ColumnMapping) {
    start(async () => {
      const outcome = await carryOut({ company, text, mapping: [...mapping] });
      if (!outcome.ok) return refuse(outcome.error);
      setPreview(null);
      setText("");
      setFileName("");
      setDone(outcome.value);
      said("The file is in");
    });
  }
  async function take(file: File | undefined) {
    if (!file) return;
    setFileName(file.name);
    if (file.size > MAX_IMPORT_BYTES) return refuse({ code: "too-big", bytes: file.size });
    const content = await file.text();
    setText(content);
    look(content, null);
  }

  return (
    <div className="grid gap-6">
      {done && (
        <Banner kind="sent" action={<Link href={`/${company}/customers`}>See the customers</Link>}>
          Brought in: {done.customers.created} customers, {done.sites.created} sites, {done.units.created} units.
        </Banner>
      )}
      <form
        className="grid gap-4"
        onSubmit={(event) => {
          event.preventDefault();
          look(text, null);
        }}
      >
        <label className="grid justify-items-start gap-1">
          <span className="font-medium">A file</span>
          <span className="text-small text-ink-soft">CSV as any spreadsheet saves it, up to 5 MB. {fileName}</span>
          <input
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            className="control h-auto py-2"
            onChange={(event) => {
              void take(event.target.files?.[0]);
              event.target.value = "";
            }}
          />
        </label>
        <TextArea
          label="or its lines, pasted"
          hint="The first line names the columns."
          mono
          rows={5}
          value={text.length > PASTE_SHOWN ? `${text.slice(0, PASTE_SHOWN)}…` : text}
          readOnly={text.length > PASTE_SHOWN}
          onChange={(event) => setText(event.target.value)}
          placeholder={"Customer,Phone,Site,Street,Unit,Maker,Model,Serial,Refrigerant,Charge lb,Charge oz"}
          spellCheck={false}
        />
        <div className="flex gap-2">
          <Button type="submit" kind={preview ? "quiet" : "action"} pending={pending} pendingWord="Reading">
            See what it would do
          </Button>
          {text !== "" && (
            <Button
              kind="plain"
              onClick={() => {
                setText("");
                setPreview(null);
                setFailure(null);
              }}
            >
              Start over
            </Button>
          )}
        </div>
      </form>
      {failure && <ErrorNotice happened={failureText(failure)} safe="Nothing was imported." />}
      {preview && (
        <PreviewSheet
          preview={preview}
          pending={pending}
          onMapping={(mapping) => look(text, mapping)}
          onImport={() => bringIn(preview.mapping)}
        />
      )}
    </div>
  );
}

/** A text box of megabytes stalls the browser; beyond this the beginning is shown. */
const PASTE_SHOWN = 20_000;
