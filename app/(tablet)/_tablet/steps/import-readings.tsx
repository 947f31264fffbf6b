"use client";

import Papa from "papaparse";
import { type ClipboardEvent, useMemo, useState } from "react";
import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { SelectField } from "@/components/ui/select-field";
import { looksLikeJson, readJsonTable } from "@/lib/instruments/json-table";
import {
  guessColumns,
  MOST_TABLE_BYTES,
  MOST_TABLE_ROWS,
  pressureIn,
  readRows,
  type TableColumns,
  type TableReading,
  type TableUnit,
  type TimeForm,
} from "@/lib/instruments/reading-table";
import { type RememberedColumns, recallColumns, rememberColumns } from "@/lib/instruments/remembered-columns";
import { keepTrace } from "@/lib/sync/device";
import { fieldsWords } from "@/lib/words/en/fields";
import { importWords } from "@/lib/words/en/import";
import { useDevice } from "../device/device-context";
import { useLive } from "../device/use-live";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { stopwatchWords } from "../today/time-words";
import { SentByInstrument } from "./sent-by-instrument";

interface Table {
  readonly heading: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Line of the text on which the first row stands. */
  readonly firstLine: number;
}

const none: RememberedColumns = [];
const MOST_INLINE = 500;
const megabytes = (bytes: number) => `${(bytes / 1_000_000).toFixed(1)} MB`;

/** Reads a table of readings; all of it or, with every bad line named, nothing of it. */
export function ImportReadingsForm({ vacuum, onDone }: { vacuum: boolean; onDone: () => void }) {
  const { store, desk } = useDevice();
  const { job } = useJobHere();
  const { set } = useForm();
  const [table, setTable] = useState<Table | null>(null);
  const [columns, setColumns] = useState<TableColumns | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const [pending, setPending] = useState(false);
  const [recalled, setRecalled] = useState(false);
  const [source, setSource] = useState<"file" | "http">("file");
  const kept = `columns ${desk.person}`;
  const remembered =
    useLive(
      kept,
      ["kept"],
      async () => ((await store.kept.get(kept))?.value as RememberedColumns | undefined) ?? none,
    ) ?? none;
  const read = useMemo(
    () => (table && columns ? readRows(table.rows, columns, table.firstLine) : null),
    [table, columns],
  );

  function take(text: string) {
    setRefusal(null);
    if (text.length > MOST_TABLE_BYTES) {
      setRefusal(tooLarge(text.length));
      return;
    }
    if (looksLikeJson(text)) {
      const read = readJsonTable(text);
      if (!read.ok) setRefusal(read.error);
      else if (read.value.rows.length > MOST_TABLE_ROWS) setRefusal(tooLong(read.value.rows.length));
      else show(read.value.heading, read.value.rows, 1);
      return;
    }
    const parsed = Papa.parse<string[]>(text.replace(/^\uFEFF/, "").trimEnd(), { skipEmptyLines: false });
    const rows = parsed.data;
    if (rows.length > MOST_TABLE_ROWS) {
      setRefusal(tooLong(rows.length));
      return;
    }
    const [first = []] = rows;
    const headed = first.some((cell) => /[a-z]/i.test(cell) && !/^\d{4}-\d{2}-\d{2}T/.test(cell.trim()));
    const heading = headed ? first : first.map((_, index) => importWords.column(index + 1));
    const body = headed ? rows.slice(1) : rows;
    show(heading, body, headed ? 2 : 1);
  }
  /** A table is read as one with the same headings was read last, else as its headings suggest. */
  function show(heading: readonly string[], rows: Table["rows"], firstLine: number) {
    const known = recallColumns(remembered, heading, vacuum);
    setTable({ heading, rows, firstLine });
    setColumns(known ?? guessColumns(heading, rows[0] ?? [], vacuum));
    setRecalled(known !== null);
  }
  function tooLong(lines: number) {
    return importWords.tooManyLines(lines.toLocaleString("en-US"), MOST_TABLE_ROWS.toLocaleString("en-US"));
  }
  function tooLarge(bytes: number) {
    return importWords.tooLarge(megabytes(bytes), megabytes(MOST_TABLE_BYTES));
  }
  function paste(event: ClipboardEvent) {
    event.preventDefault(); // never into the field: a large paste would stop the page
    take(event.clipboardData.getData("text"));
  }
  async function pick(file: File | undefined) {
    if (!file) return;
    if (file.size > MOST_TABLE_BYTES) {
      setTable(null);
      setRefusal(tooLarge(file.size));
      return;
    }
    take(await file.text());
  }
  async function keep(readings: readonly TableReading[]) {
    if (!columns) return;
    setPending(true);
    const record = await recordOf(readings, columns.valueUnit);
    setPending(false);
    if (typeof record === "string") {
      setRefusal(record);
      return;
    }
    if (table) {
      const value = rememberColumns(remembered, table.heading, vacuum, columns);
      await store.kept.put({ name: kept, value }).catch(console.error); // the readings matter more than the habit
    }
    set("record", record);
    set("source", source);
    set("_startMs", null);
    window.scrollTo(0, 0); // what the readings say stands on top
    onDone();
  }
  async function recordOf(readings: readonly TableReading[], unit: TableUnit) {
    if (readings.length <= MOST_INLINE) {
      const inline = readings.map((reading) => {
        const temperature = reading.temperatureC !== undefined && { temperatureC: reading.temperatureC };
        return vacuum
          ? { s: reading.s, micron: pressureIn(reading, unit, "micron"), ...temperature }
          : { s: reading.s, kPaGauge: pressureIn(reading, unit, "kPa"), ...temperature };
      });
      return { kept: "inline", readings: inline };
    }
    const lengthMs = (readings.at(-1)?.s ?? 0) * 1000;
    const startMs = Math.round(Date.now() - lengthMs);
    const samples = readings.map(({ s, value, temperatureC }) => ({
      atMs: startMs + Math.round(s * 1000),
      value,
      ...(temperatureC !== undefined && { temperatureC }),
    }));
    const trace = await keepTrace(store, desk, job.id, unit, samples);
    if (trace.ok) return { kept: "trace", trace: trace.value };
    return trace.error.code === "mixed-temperature" ? importWords.someLinesHave : importWords.someNumbersHaveMore;
  }

  if (!table || !columns)
    return (
      <div className="grid gap-4">
        <label className="grid gap-2">
          <span className="font-medium">{importWords.chooseAFile}</span>
          <input
            type="file"
            accept=".csv,.txt,.tsv,.json,text/csv,text/plain,application/json"
            className="control file:mr-4 file:min-h-11 file:border-0 file:bg-transparent file:font-semibold"
            onChange={(event) => void pick(event.target.files?.[0])}
          />
        </label>
        <label className="grid gap-2">
          <span className="font-medium">{importWords.orPasteTheTable}</span>
          <textarea
            className="control min-h-24"
            readOnly={false}
            value=""
            onChange={(event) => take(event.target.value)}
            onPaste={paste}
          />
        </label>
        {refusal && <ErrorNotice happened={refusal} safe={importWords.nothingTakenIn} />}
        <SentByInstrument
          vacuum={vacuum}
          onTable={({ heading, rows }) => {
            show(heading, rows, 1);
            setSource("http");
          }}
        />
      </div>
    );
  const options = (none?: string) => [
    ...(none ? [{ value: "", label: none }] : []),
    ...table.heading.map((name, index) => ({
      value: String(index),
      label: `${name} (${table.rows[0]?.[index] ?? ""})`,
    })),
  ];
  const column = (text: string) => (text === "" ? null : Number(text));
  return (
    <div className="grid gap-4">
      {recalled && <p className="text-ink-soft">{importWords.readAsLastTime}</p>}
      <div className="grid items-end gap-3 pair:grid-cols-2">
        <SelectField
          label={importWords.time}
          choices={options(fieldsWords.choose)}
          value={String(columns.time ?? "")}
          onChange={(event) => setColumns({ ...columns, time: column(event.target.value) })}
        />
        <SelectField
          label={importWords.timeIsGiven}
          value={columns.timeForm}
          choices={[
            { value: "s", label: importWords.seconds },
            { value: "min", label: importWords.minutes },
            { value: "ms", label: importWords.milliseconds },
            { value: "clock", label: importWords.clockTimeOrDate },
          ]}
          onChange={(event) => setColumns({ ...columns, timeForm: event.target.value as TimeForm })}
        />
        <SelectField
          label={vacuum ? importWords.vacuum : importWords.pressure}
          choices={options(fieldsWords.choose)}
          value={String(columns.value ?? "")}
          onChange={(event) => setColumns({ ...columns, value: column(event.target.value) })}
        />
        <SelectField
          label={vacuum ? importWords.vacuumIsIn : importWords.gaugePressure}
          value={columns.valueUnit}
          choices={(vacuum ? ["micron", "Pa", "mbar", importWords.torr] : ["psi", "kPa", "bar"]).map((unit) => ({
            value: unit,
            label: unit,
          }))}
          onChange={(event) => setColumns({ ...columns, valueUnit: event.target.value as TableUnit })}
        />
        <SelectField
          label={importWords.temperature}
          choices={options(vacuum ? importWords.none : fieldsWords.choose)}
          value={String(columns.temperature ?? "")}
          onChange={(event) => setColumns({ ...columns, temperature: column(event.target.value) })}
        />
        {columns.temperature !== null && (
          <SelectField
            label={importWords.temperatureIsIn}
            value={columns.temperatureUnit}
            choices={[
              { value: "C", label: importWords.c },
              { value: "F", label: importWords.f },
            ]}
            onChange={(event) => setColumns({ ...columns, temperatureUnit: event.target.value as "C" | "F" })}
          />
        )}
      </div>
      {refusal && <ErrorNotice happened={refusal} safe={importWords.nothingTakenIn} />}
      {read?.ok === false && (
        <ErrorNotice
          happened={importWords.linesCannotBeRead(read.error.length)}
          todo={
            <>
              {read.error.slice(0, 8).map((fault) => (
                <span key={`${fault.line} ${fault.problem}`} className="block">
                  {importWords.lineProblem(fault.line, fault.problem)}
                </span>
              ))}
              {read.error.length > 8 && <span className="block">{importWords.andMore(read.error.length - 8)}</span>}
            </>
          }
        />
      )}
      {read?.ok && (
        <p>
          {importWords.readingsOver(
            read.value.length.toLocaleString("en-US"),
            stopwatchWords(read.value.at(-1)?.s ?? 0),
            `${read.value[0]?.value}`,
            `${read.value.at(-1)?.value} ${columns.valueUnit}`,
          )}
        </p>
      )}
      <div className="flex gap-3 *:first:grow">
        <Button kind="action" pending={pending} disabled={!read?.ok} onClick={() => read?.ok && void keep(read.value)}>
          {importWords.takeTheseReadings}
        </Button>
        <Button
          onClick={() => {
            setTable(null);
            setRefusal(null);
            setSource("file");
          }}
        >
          {importWords.anotherFile}
        </Button>
      </div>
    </div>
  );
}
