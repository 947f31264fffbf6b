import { fromPa, type PressureUnit, toPa } from "@/lib/hvac/units";
import { err, ok, type Result } from "@/lib/result";

/** The most text that is looked at; a day at one reading a second is some 2 MB. */
export const MOST_TABLE_BYTES = 8_000_000;
export const MOST_TABLE_ROWS = 200_000;

export type TimeForm = "s" | "min" | "ms" | "clock";
export type TableUnit = "micron" | "Pa" | "mbar" | "Torr" | "kPa" | "psi" | "bar";

/** Which column is what. Columns are counted from 0; null: not in the table. */
export interface TableColumns {
  readonly time: number | null;
  readonly timeForm: TimeForm;
  readonly value: number | null;
  readonly valueUnit: TableUnit;
  readonly temperature: number | null;
  readonly temperatureUnit: "C" | "F";
}

export interface TableReading {
  /** Seconds from the first row. */
  readonly s: number;
  readonly value: number;
  readonly temperatureC?: number;
}

export interface TableFault {
  /** Line of the text, counted from 1, headings included. */
  readonly line: number;
  readonly problem: string;
}

/** What the headings and the first rows suggest; the person looking corrects it. */
export function guessColumns(heading: readonly string[], first: readonly string[], vacuum: boolean): TableColumns {
  const names = heading.map((name) => name.toLowerCase());
  const find = (...patterns: RegExp[]) => {
    for (const pattern of patterns) {
      const at = names.findIndex((name) => pattern.test(name));
      if (at >= 0) return at;
    }
    return null;
  };
  const time = find(/time|elapsed|clock|date/, /^s$|sec|\bmin/) ?? (first.length > 1 ? 0 : null);
  const temperature = find(/temp|°|\bt\b|\(c\)|\(f\)/);
  const value =
    find(/micron|vac|press|torr|mbar|psi|kpa|\bpa\b|\bbar\b/) ??
    first.findIndex((_, column) => column !== time && column !== temperature);
  const valueName = (value !== null && names[value]) || "";
  const timeName = (time !== null && names[time]) || "";
  const timeCell = (time !== null && first[time]) || "";
  const temperatureName = (temperature !== null && names[temperature]) || "";
  return {
    time,
    timeForm: /[:T]/.test(timeCell.trim())
      ? "clock"
      : /\bms\b|milli/.test(timeName)
        ? "ms"
        : /min/.test(timeName)
          ? "min"
          : "s",
    value: value === null || value < 0 ? null : value,
    valueUnit: unitIn(valueName) ?? (vacuum ? "micron" : "psi"),
    temperature,
    temperatureUnit: /\bf\b|°f|fahr|\(f\)|_f$/.test(temperatureName) ? "F" : "C",
  };
}

function unitIn(name: string): TableUnit | undefined {
  const units: readonly [RegExp, TableUnit][] = [
    [/micron|µm|mtorr|um ?hg/, "micron"],
    [/mbar|hpa/, "mbar"],
    [/torr/, "Torr"],
    [/kpa/, "kPa"],
    [/psi/, "psi"],
    [/\bbar\b|_bar/, "bar"],
    [/\bpa\b|_pa$|\(pa\)/, "Pa"],
  ];
  return units.find(([pattern]) => pattern.test(name))?.[1];
}

/**
 * Every row as a reading, or every fault by its line; one fault and nothing is taken.
 * @param firstLine line of the text on which the first of the rows stands
 */
export function readRows(
  rows: readonly (readonly string[])[],
  columns: TableColumns,
  firstLine: number,
): Result<TableReading[], readonly TableFault[]> {
  const faults: TableFault[] = [];
  const readings: TableReading[] = [];
  const { time, value } = columns;
  if (time === null || value === null)
    return err([{ line: firstLine, problem: "Say which column is the time and which the gauge." }]);
  let startS: number | undefined;
  let previousS = Number.NEGATIVE_INFINITY;
  for (const [index, row] of rows.entries()) {
    const line = firstLine + index;
    if (row.every((cell) => cell.trim() === "")) continue;
    const atS = readTime(row[time] ?? "", columns.timeForm, previousS);
    const shown = readNumber(row[value] ?? "");
    const temperature = columns.temperature === null ? undefined : readNumber(row[columns.temperature] ?? "");
    if (atS === null) faults.push({ line, problem: `“${row[time] ?? ""}” is no time` });
    else if (shown === null) faults.push({ line, problem: `“${row[value] ?? ""}” is no pressure` });
    else if (shown < 0 && isAbsolute(columns.valueUnit))
      faults.push({ line, problem: `${shown} ${columns.valueUnit}: an absolute pressure is never negative` });
    else if (temperature === null)
      faults.push({ line, problem: `“${row[columns.temperature ?? 0] ?? ""}” is no temperature` });
    else if (atS < previousS) faults.push({ line, problem: "the time runs backwards here" });
    else {
      startS ??= atS;
      const temperatureC =
        temperature === undefined
          ? undefined
          : columns.temperatureUnit === "F"
            ? (temperature - 32) / 1.8
            : temperature;
      readings.push({
        s: Math.round((atS - startS) * 1000) / 1000,
        value: shown,
        ...(temperatureC !== undefined && { temperatureC: Math.round(temperatureC * 1000) / 1000 }),
      });
    }
    if (atS !== null) previousS = Math.max(previousS, atS);
    if (faults.length >= MOST_FAULTS) break;
  }
  if (faults.length > 0) return err(faults);
  if (readings.length === 0) return err([{ line: firstLine, problem: "There is no reading in it." }]);
  return ok(readings);
}
const MOST_FAULTS = 50;

function isAbsolute(unit: TableUnit): boolean {
  return unit === "micron" || unit === "Pa" || unit === "mbar" || unit === "Torr";
}

/** The reading's pressure in another unit. */
export function pressureIn(reading: TableReading, from: TableUnit, to: PressureUnit): number {
  return Number(fromPa(toPa(reading.value, from), to).toPrecision(9));
}

function readNumber(cell: string): number | null {
  const text = cell.trim().replace(/^(-?\d+),(\d+)$/, "$1.$2");
  if (!/^[-+]?\d+(\.\d*)?([eE][-+]?\d+)?$|^[-+]?\.\d+$/.test(text)) return null;
  const number = Number(text);
  return Number.isFinite(number) ? number : null;
}

const DAY_S = 86_400;

/** Seconds; a clock without a date that falls back has passed midnight. */
function readTime(cell: string, form: TimeForm, previousS: number): number | null {
  if (form !== "clock") {
    const number = readNumber(cell);
    if (number === null || number < 0) return null;
    return form === "min" ? number * 60 : form === "ms" ? number / 1000 : number;
  }
  const clock = /^(\d{1,3}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?$/.exec(cell.trim());
  if (clock) {
    const s = Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number((clock[3] ?? "0").replace(",", "."));
    const passed = previousS - s > DAY_S / 2 ? Math.ceil((previousS - s - DAY_S / 2) / DAY_S) : 0;
    return s + passed * DAY_S;
  }
  const ms = Date.parse(cell.trim().replace(/^(\d{4}-\d{2}-\d{2}) (\d)/, "$1T$2"));
  return Number.isNaN(ms) ? null : ms / 1000;
}
