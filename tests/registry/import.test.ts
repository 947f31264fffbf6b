import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { guessMapping, judgeMapping } from "@/lib/registry/import/columns";
import { writeRegister } from "@/lib/registry/import/export-lines";
import { judgeRows } from "@/lib/registry/import/judge-rows";
import { planImport, type Register } from "@/lib/registry/import/plan-import";
import { exportCell, MAX_IMPORT_BYTES, readTable, writeTable } from "@/lib/registry/import/read-table";

const nobody: Register = { customers: [], sites: [], units: [] };

function judged(text: string) {
  const table = readTable(text);
  if (!table.ok) throw new Error(table.error.code);
  return judgeRows(table.value, guessMapping(table.value.headings), "America/Denver");
}

describe("reading a file", () => {
  test("finds the delimiter and keeps the editor's line numbers across quoted line ends and blank lines", () => {
    const table = readTable('Customer;Note\r\nAda;"two\r\nlines"\r\n\r\nBen;x\r\n');
    expect(table).toEqual({
      ok: true,
      value: {
        headings: ["Customer", "Note"],
        rows: [
          { lineNumber: 2, cells: ["Ada", "two\nlines"] },
          { lineNumber: 5, cells: ["Ben", "x"] },
        ],
      },
    });
  });

  test("takes tabs pasted from a spreadsheet, and a byte order mark", () => {
    const table = readTable("\ufeffCustomer\tPhone\nAda\t555\n");
    expect(table.ok && table.value.headings).toEqual(["Customer", "Phone"]);
  });

  test.each([
    ["an empty one", "", "empty"],
    ["one with a heading only", "Customer\n\n  \n", "empty"],
    ["one with a quote left open", 'Customer,Phone\nAda,"555\nBen,556', "quote-not-closed"],
    ["one with more cells than headings", "Customer,Phone\nAda,555,extra", "cells-do-not-fit"],
    ["a spreadsheet's own format", "PK\u0003\u0004\0\0", "not-text"],
    ["10 001 rows", `Customer\n${"Ada\n".repeat(10_001)}`, "too-many-rows"],
    ["61 columns", `${"a,".repeat(60)}a\n1`, "too-many-columns"],
    ["over 5 MB", `Customer\n${"x".repeat(MAX_IMPORT_BYTES)}`, "too-big"],
  ])("refuses %s", (_what, text, code) => {
    const table = readTable(text);
    expect(table.ok ? "read" : table.error.code).toBe(code);
  });

  test("names the line of a row that is too long", () => {
    expect(readTable("Customer,Phone\nAda,555\n\nBen,1,2")).toMatchObject({
      ok: false,
      error: { lineNumber: 4, cells: 3 },
    });
  });
});

describe("columns", () => {
  test("are guessed from their headings, each field once", () => {
    const headings = ["Client Name", "ZIP", "Serial No.", "Charge (lb)", "Charge (oz)", "Phone", "Mobile", "Colour"];
    expect(guessMapping(headings)).toEqual([
      "customerName",
      "sitePostalCode",
      "unitSerial",
      "chargeLb",
      "chargeOz",
      "customerPhone",
      null,
      null,
    ]);
  });

  test("must name the customer, and the site where they speak of units", () => {
    expect(judgeMapping(["customerPhone"])).toEqual({ code: "no-customer-column" });
    expect(judgeMapping(["customerName", "unitSerial"])).toEqual({ code: "unit-without-site-column" });
    expect(judgeMapping(["customerName", "customerName"])).toMatchObject({ code: "field-mapped-twice" });
    expect(judgeMapping(["customerName", null, "siteName", "unitSerial"])).toBeNull();
  });
});

describe("rows", () => {
  test("read lb and oz as a nameplate prints them", () => {
    const { rows, errors } = judged("Customer,Site,Unit,Refrigerant,Charge lb,Charge oz\nAda,Home,AC,r410a,7,4");
    expect(errors).toEqual([]);
    // 7 lb 4 oz = 116 oz; 1 oz = 0.45359237/16 kg by definition (NIST SP 811)
    expect(rows[0]?.unit?.nameplate.factoryChargeKg).toBeCloseTo((116 * 0.45359237) / 16, 9);
    expect(rows[0]?.unit?.nameplate.nameplateRefrigerant).toBe("R-410A");
    expect(rows[0]?.site?.timeZone).toBe("America/Denver");
  });

  test("with faults name line and column of each, and are not among the good ones", () => {
    const { rows, errors } = judged(
      "Customer,Email,Site,Lat,Lon,Unit,Year,Charge kg\nAda,ada@,Home,91,10,AC,19x,-1\n,,,,,,,\nBen,,Shop,,,Case,2019,NaN\n,x@y.zz,,,,,,",
    );
    expect(rows).toEqual([]);
    expect(errors.map(({ lineNumber, heading }) => `${lineNumber} ${heading}`)).toEqual([
      "2 Email",
      "2 Lat",
      "2 Year",
      "2 Charge kg",
      "4 Charge kg",
      "5 Customer",
    ]);
  });
});

describe("the plan", () => {
  const file =
    "Customer,Phone,Site,Street,Unit,Serial\nAda,1,Home,Elm 1,AC,S1\nada ,1,HOME,Elm 1,Furnace,S2\nBen,2,,,,\n";

  test("creates each thing once, however many lines name it", () => {
    const plan = planImport(judged(file).rows, nobody);
    expect(plan.counts).toEqual({
      customers: { created: 2, matched: 0 },
      sites: { created: 1, matched: 0 },
      units: { created: 2, matched: 0 },
    });
  });

  const held: Register = {
    customers: [{ id: "c1", name: "ADA", phone: "1", email: "" }],
    sites: [{ id: "s1", customerId: "c1", name: "House", street: "elm  1" }],
    units: [{ id: "u1", siteId: "s1", name: "Heat pump", serial: "s1" }],
  };

  test("finds what is there already: customer by name, site by street, unit by serial", () => {
    const plan = planImport(judged(file).rows, held);
    expect(plan.rows[0]).toMatchObject({
      customer: { matched: "c1" },
      site: { matched: "s1" },
      unit: { matched: "u1" },
    });
    expect(plan.counts.units).toEqual({ created: 1, matched: 1 });
  });

  test("warns of a serial that stands at another site, and of a unit on two lines", () => {
    const twice = judged("Customer,Site,Unit,Serial\nBen,Shop,AC,S1\nBen,Shop,AC,S1\n");
    expect(planImport(twice.rows, held).warnings).toEqual([
      { lineNumber: 2, code: "serial-elsewhere", serial: "S1" },
      { lineNumber: 3, code: "unit-on-two-lines", serial: "S1" },
    ]);
  });

  test("asks which of two customers of one name is meant, and takes a phone for an answer", () => {
    const two = { ...nobody, customers: [...held.customers, { id: "c2", name: "Ada", phone: "(2) 22", email: "" }] };
    expect(planImport(judged("Customer\nAda\n").rows, two).errors).toMatchObject([
      { lineNumber: 2, field: "customerName" },
    ]);
    expect(planImport(judged("Customer,Phone\nAda,222\n").rows, two).rows[0]?.customer).toEqual({ matched: "c2" });
  });
});

describe("an exported file", () => {
  test("starts no formula in a spreadsheet", () => {
    for (const cell of ["=1+1", "+1", "-1", "@x", "\tx"]) expect(exportCell(cell)).toBe(`'${cell}`);
    expect(exportCell("Ada - Home")).toBe("Ada - Home");
  });

  test("never has a cell that begins like a formula, and reads back to the same cells", () => {
    const cell = fc.string({ unit: fc.constantFrom("=", "+", "-", "@", "'", '"', ",", ";", "\n", "a", " ", "1") });
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 8 }), (cells) => {
        const rows = cells.map(([a, b]) => [`x${a}`.trim(), b.trim()]);
        const table = readTable(writeTable(["One", "Two"], rows));
        expect(table.ok && table.value.rows.map((row) => row.cells)).toEqual(rows);
        expect(exportCell(cells[0]![1])).not.toMatch(/^[=+\-@\t\r]/);
      }),
    );
  });

  test("is understood by our own import without mapping a column by hand", () => {
    const unit = {
      name: "AC",
      serial: "=S1",
      maker: "",
      circuits: [{ nameplateRefrigerant: "R-32", factoryChargeKg: 1.5 }],
    };
    const text = writeRegister([
      {
        name: "Ada",
        phone: "1",
        sites: [{ name: "Home", timeZone: "Europe/Paris", latitude: 48.1, longitude: 2, equipment: [unit] }],
      },
      { name: "Ben", sites: [] },
    ]);
    const { rows, errors } = judged(text);
    expect(errors).toEqual([]);
    expect(rows).toMatchObject([
      {
        customer: { name: "Ada", phone: "1" },
        site: { name: "Home", timeZone: "Europe/Paris", latitude: 48.1 },
        unit: { serial: "=S1", nameplate: { nameplateRefrigerant: "R-32", factoryChargeKg: 1.5 } },
      },
      { customer: { name: "Ben" }, site: null, unit: null },
    ]);
  });
});
