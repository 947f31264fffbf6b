import { describe, expect, test } from "vitest";
import { readPastList } from "@/lib/registry/import/past-additions";

const read = (text: string) => {
  const list = readPastList(text);
  if (!list.ok) throw new Error(list.error.code);
  return list.value;
};

describe("a list of charges and past additions", () => {
  test("is read with its headings however written, pounds as grams", () => {
    const { lines, errors } = read("SERIAL NO;Full charge (lb);Date added;Added lb\nBG-1;21;2026-03-02;6.5\nBG-2;;;");
    expect(errors).toEqual([]);
    expect(lines).toMatchObject([
      { lineNumber: 2, serial: "BG-1", fullChargeGrams: 9525, addedOn: "2026-03-02", addedGrams: 2948 },
      { lineNumber: 3, serial: "BG-2", fullChargeGrams: null, addedOn: null, addedGrams: null },
    ]);
  });

  test.each([
    ["a mass without a day", "A,,2", "addedOn"],
    ["a day without a mass", "A,2026-03-02,", "addedKg"],
    ["a day that is none", "A,2026-02-30,2", "addedOn"],
    ["a mass that is none", "A,2026-03-02,two", "addedKg"],
    ["no unit", ",2026-03-02,2", "serial"],
  ])("%s is a fault of its line and column, and the line is left out", (_what, row, column) => {
    const { lines, errors } = read(`Serial,Added on,Added kg\n${row}\nB,2026-03-02,1`);
    expect(errors.map(({ lineNumber, column: at }) => [lineNumber, at])).toEqual([[2, column]]);
    expect(lines.map(({ serial }) => serial)).toEqual(["B"]);
  });

  test("without a column that names the unit nothing is read", () => {
    expect(readPastList("Added on,Added kg\n2026-03-02,1")).toEqual({ ok: false, error: { code: "no-unit-column" } });
  });
});
