import { describe, expect, test } from "vitest";
import { looksLikeJson, readJsonTable } from "@/lib/instruments/json-table";
import { guessColumns, pressureIn, readRows } from "@/lib/instruments/reading-table";
import { recallColumns, rememberColumns } from "@/lib/instruments/remembered-columns";

describe("readings in JSON", () => {
  test("a list of objects is a table by its names, wherever it lies", () => {
    const list = [
      { at: "2026-06-01T10:00:00Z", vac_mbar: 0.4, temp_c: 21 },
      { at: "2026-06-01T10:00:01Z", vac_mbar: 0.41, note: "x" },
    ];
    const table = { heading: ["at", "vac_mbar", "temp_c", "note"], rows: expect.any(Array) };
    expect(readJsonTable(JSON.stringify(list))).toMatchObject({ ok: true, value: table });
    expect(readJsonTable(JSON.stringify({ instrument: "bench", readings: list }))).toMatchObject({
      ok: true,
      value: table,
    });
  });
  test("mbar and Celsius come out as what they are: 0.4 mbar is 300 micron", () => {
    const read = readJsonTable('[{"at":"2026-06-01T10:00:00Z","vac_mbar":0.4,"temp_c":21.5}]');
    if (!read.ok) throw new Error(read.error);
    const { heading, rows } = read.value;
    const columns = guessColumns(heading, rows[0]!, true);
    expect(columns).toMatchObject({ timeForm: "clock", valueUnit: "mbar", temperatureUnit: "C" });
    const readings = readRows(rows, { ...columns, time: 0 }, 1);
    if (!readings.ok) throw new Error("not read");
    expect(readings.value).toEqual([{ s: 0, value: 0.4, temperatureC: 21.5 }]);
    // 1 micron of mercury = 0.1333224 Pa, NIST SP 811 (2008) Appendix B.8
    expect(pressureIn(readings.value[0]!, "mbar", "micron")).toBeCloseTo(40 / 0.1333224, 3);
  });
  test("lists of lists have numbered columns, and holes stay empty", () => {
    expect(readJsonTable("[[0,310],[1]]")).toEqual({
      ok: true,
      value: {
        heading: ["Column 1", "Column 2"],
        rows: [
          ["0", "310"],
          ["1", ""],
        ],
      },
    });
  });
  test.each(['{"a":1}', "[]", "[1,2]", "[{", '{"a":[],"b":[]}'])("%s is refused in words", (text) => {
    expect(looksLikeJson(text)).toBe(true);
    const read = readJsonTable(text);
    expect(!read.ok && read.error).toMatch(/\./);
  });
  test("a table of numbers is not taken for JSON", () => {
    expect(looksLikeJson("seconds,micron\n0,310")).toBe(false);
  });
});

describe("remembered columns", () => {
  const columns = guessColumns(["t", "p"], ["0", "1"], true);
  test("the same headings are read as they were last, others are guessed", () => {
    const first = rememberColumns([], ["t", "p"], true, { ...columns, valueUnit: "mbar" });
    const then = rememberColumns(first, ["t", "p"], true, { ...columns, valueUnit: "Torr" });
    expect(recallColumns(then, ["t", "p"], true)?.valueUnit).toBe("Torr");
    expect(recallColumns(then, ["t", "p"], false)).toBeNull(); // the same headings at a pressure test are another table
    expect(recallColumns(then, ["t", "q"], true)).toBeNull();
    expect(then).toHaveLength(1);
  });
  test("what was met longest ago is forgotten", () => {
    let all = rememberColumns([], ["old"], true, columns);
    for (let each = 0; each < 30; each += 1) all = rememberColumns(all, [String(each)], true, columns);
    expect(recallColumns(all, ["old"], true)).toBeNull();
    expect(recallColumns(all, ["29"], true)).toEqual(columns);
  });
});
