import { afterAll, beforeAll, expect, test } from "vitest";
import { serverFonts } from "@/components/certificate/server-fonts";
import { drawRecord } from "@/components/refrigerant/record-pdf";
import { carryOutPastList, planPastList } from "@/lib/db/refrigerant/import-past";
import { recordLawEvent } from "@/lib/db/refrigerant/law-events";
import { readRecords } from "@/lib/db/refrigerant/records";
import { withTenant } from "@/lib/db/tenant";
import { readPastList } from "@/lib/registry/import/past-additions";
import { writeRecordTable } from "@/lib/work/inspector-record";
import { readPdf } from "../certificate/read-pdf";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

const period = { from: "2026-01-01", to: "2026-12-31" };

test("a list of past additions is found, faults told by line, brought in once; the record of it is a PDF and a table that can be read", async () => {
  const { alder: at, birch } = database;
  await withTenant(at.company, (tx) => tx.equipment.updateMany({ data: { serial: "SN-1", applianceKind: "other" } }));
  const list = readPastList("Serial,Full charge lb,Added on,Added lb\nSN-1,20,2026-03-02,6.5\nSN-2,,,");
  const lines = list.ok ? list.value.lines : [];
  const brought = await withTenant(at.company, async (tx) => {
    const { planned, errors } = await planPastList(tx, lines);
    expect(errors.map(({ lineNumber, column }) => [lineNumber, column])).toEqual([[3, "serial"]]);
    const first = await carryOutPastList(tx, planned, at.supervisor.personId, "2026-11-25");
    const again = await carryOutPastList(tx, planned, at.supervisor.personId, "2026-11-25");
    return [first, again];
  });
  expect(brought).toEqual([
    { charges: 1, additions: 1 },
    { charges: 1, additions: 0 },
  ]);
  const held = await withTenant(at.company, (tx) =>
    tx.refrigerantBalance.findMany({ where: { placeKind: { in: ["circuit", "loss"] } } }),
  );
  expect(held.map(({ placeKind, grams }) => [placeKind, Number(grams)]).sort()).toEqual([
    ["circuit", 3200],
    ["loss", 2948],
  ]);

  const event = { circuitId: at.circuitId, kind: "follow-up-verification", on: "2026-03-20", passed: true } as const;
  const who = { doneBy: "T. Technician", certificate: "us-universal 123", method: "bubbles", note: "" };
  await withTenant(at.company, (tx) => recordLawEvent(tx, { ...event, ...who }, at.supervisor.personId));
  const record = (await withTenant(at.company, (tx) => readRecords(tx, at.circuitId, period)))!;
  expect(record.fullChargeKg).toBe(9.072);
  const { text, roles } = await readPdf(await drawRecord(record, new Date("2026-11-25"), await serverFonts()));
  for (const words of [
    `Customer of alder`,
    "32.50 % a year, above the trigger",
    "annualizing",
    "us-universal 123",
    "bubbles",
  ])
    expect(text).toContain(words);
  expect(roles).toContain("Table");
  const table = writeRecordTable(record).split("\r\n");
  expect(table).toHaveLength(1 + record.lines.length);
  expect(table.find((line) => line.includes("Added before the books began"))).toContain("2.948");
  expect(await withTenant(birch.company, (tx) => readRecords(tx, at.circuitId, period))).toBeNull();
});
