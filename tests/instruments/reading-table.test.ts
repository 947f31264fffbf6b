import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { guessColumns, pressureIn, readRows, type TableColumns } from "@/lib/instruments/reading-table";

const columns: TableColumns = {
  time: 0,
  timeForm: "s",
  value: 1,
  valueUnit: "micron",
  temperature: null,
  temperatureUnit: "C",
};

describe("which column is what", () => {
  test.each([
    [["Elapsed (s)", "Vacuum (micron)"], ["0", "310"], { time: 0, timeForm: "s", value: 1, valueUnit: "micron" }],
    [
      ["Time", "mbar", "Temp F"],
      ["10:00:05", "0.41", "70"],
      { timeForm: "clock", value: 1, valueUnit: "mbar", temperature: 2, temperatureUnit: "F" },
    ],
    [
      ["temp_C", "pressure_kPa", "minutes"],
      ["20", "2500", "0.5"],
      { time: 2, timeForm: "min", value: 1, valueUnit: "kPa", temperature: 0, temperatureUnit: "C" },
    ],
    [["Column 1", "Column 2"], ["0", "310"], { time: 0, value: 1, valueUnit: "micron", temperature: null }],
  ])("is guessed from %j", (heading, first, expected) => {
    expect(guessColumns(heading, first, true)).toMatchObject(expected);
  });
});

describe("reading the rows", () => {
  test("seconds count from the first row and empty lines are passed over", () => {
    const read = readRows(
      [
        ["5", "310"],
        ["", ""],
        ["7.5", "312"],
      ],
      columns,
      2,
    );
    expect(read).toEqual({
      ok: true,
      value: [
        { s: 0, value: 310 },
        { s: 2.5, value: 312 },
      ],
    });
  });

  test("every bad line is named by its line in the text, and nothing is taken", () => {
    const rows = [
      ["0", "310"],
      ["1", "n/a"],
      ["2", "-4"],
      ["1", "311"],
      ["3", "NaN"],
      ["x", "312"],
    ];
    const read = readRows(rows, columns, 2);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.error.map(({ line }) => line)).toEqual([3, 4, 5, 6, 7]);
    expect(read.error[2]?.problem).toBe("the time runs backwards here");
  });

  test("a gauge pressure may be below zero, an absolute one never", () => {
    expect(readRows([["0", "-3"]], { ...columns, valueUnit: "psi" }, 1).ok).toBe(true);
    expect(readRows([["0", "-3"]], { ...columns, valueUnit: "mbar" }, 1).ok).toBe(false);
  });

  test("a clock without a date may pass midnight", () => {
    const read = readRows(
      [
        ["23:59:50", "310"],
        ["00:00:05", "311"],
      ],
      { ...columns, timeForm: "clock" },
      1,
    );
    expect(read.ok && read.value.map(({ s }) => s)).toEqual([0, 15]);
  });

  test("date and time are read as they stand", () => {
    const rows = [
      ["2026-01-05 10:00:00", "310"],
      ["2026-01-05 10:01:30", "311"],
    ];
    const read = readRows(rows, { ...columns, timeForm: "clock" }, 1);
    expect(read.ok && read.value[1]?.s).toBe(90);
  });

  test("temperatures in Fahrenheit become Celsius", () => {
    const read = readRows([["0", "310", "68"]], { ...columns, temperature: 2, temperatureUnit: "F" }, 1);
    expect(read.ok && read.value[0]?.temperatureC).toBe(20);
  });

  test("a table without any reading is a fault, not an empty record", () => {
    expect(readRows([["", ""]], columns, 2).ok).toBe(false);
  });

  test("a decimal comma is read as one", () => {
    const read = readRows([["0", "0,41"]], { ...columns, valueUnit: "mbar" }, 1);
    expect(read.ok && read.value[0]?.value).toBe(0.41);
  });

  test("whatever the cells hold, the answer is readings in rising time or faults with lines", () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 8 }),
      fc.integer().map(String),
      fc.double({ noNaN: true }).map(String),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { maxLength: 30 }), (rows) => {
        const read = readRows(rows, columns, 1);
        if (!read.ok) {
          expect(read.error.every(({ line }) => line >= 1 && line <= rows.length + 1)).toBe(true);
          return;
        }
        for (const [index, reading] of read.value.entries()) {
          expect(Number.isFinite(reading.value) && Number.isFinite(reading.s)).toBe(true);
          if (index > 0) expect(reading.s).toBeGreaterThanOrEqual(read.value[index - 1]!.s);
        }
      }),
    );
  });

  test("0.41 mbar is the micron value by definition of the Torr", () => {
    // 1 mbar = 100 Pa; 1 micron = 101325/760000 Pa (exact, by the definition of the Torr)
    expect(pressureIn({ s: 0, value: 0.41 }, "mbar", "micron")).toBeCloseTo(41 / (101_325 / 760_000), 4);
  });
});
