import type { CertificateFonts } from "@/components/certificate/letters";
import { ink } from "@/components/certificate/paper-ink";
import { CONTENT_PT, PAGE, Sheet } from "@/components/certificate/sheet";
import { DEFERRAL, MARK_WORDS } from "@/lib/duties";
import type { InspectorRecord, RecordLine } from "@/lib/work/inspector-record";

const SMALL = { sizePt: 8 };
const SOFT = { sizePt: 8, colour: ink.soft };
const COLUMNS = [
  { head: "Date", widthPt: 52, text: (line: RecordLine) => line.on },
  { head: "What", widthPt: 112, text: (line: RecordLine) => line.what },
  {
    head: "kg in",
    widthPt: 48,
    text: (line: RecordLine) => (line.grams === null ? "" : (line.grams / 1000).toFixed(3)),
  },
  { head: "Result", widthPt: 108, text: (line: RecordLine) => line.result },
  {
    head: "By, certificate",
    widthPt: 92,
    text: (line: RecordLine) => [line.person, line.certificate].filter(Boolean).join(", "),
  },
  {
    head: "Method, source, digest",
    widthPt: 95,
    text: ({ method, source, digest }: RecordLine) =>
      [method, source, digest && `entry ${digest.slice(0, 16)}`].filter(Boolean).join(", "),
  },
] as const;

/** An inspector's record as a tagged PDF: what the appliance is, then everything that happened to it, each line with its ground. */
export function drawRecord(
  record: InspectorRecord,
  madeAt: Date,
  fonts: CertificateFonts,
): Promise<Uint8Array<ArrayBuffer>> {
  const title = `Refrigerant record of ${record.appliance}`;
  const sheet = new Sheet({ title, author: record.company, subject: "Refrigerant record", madeAt }, fonts);
  paragraph(sheet, "H1", title, { sizePt: 16, bold: true });
  sheet.y += 4;
  for (const fact of facts(record)) paragraph(sheet, "P", fact, { sizePt: 9.5 });
  sheet.y += 8;
  drawTable(sheet, record.lines);
  sheet.y += 8;
  for (const note of notes(record)) paragraph(sheet, "P", note, SOFT);
  const short = record.digest.slice(0, 16);
  return sheet.finish((page, pages) => ({
    left: `${record.company}. ${record.from} to ${record.to}. Digest begins ${short}`,
    right: `Page ${page} of ${pages}`,
  }));
}

function facts(record: InspectorRecord): string[] {
  const charge = record.fullChargeKg === null ? "not on record" : `${record.fullChargeKg.toFixed(3)} kg`;
  return [
    `Owner or operator: ${record.owner}. Location: ${record.location}.`,
    `${record.identity ? `${record.identity}. ` : ""}Refrigerant ${record.refrigerant}, full charge ${charge} (by ${record.fullChargeMethod}).`,
    `Leak rate by the ${record.leakRateMethod} method. Work and record by ${record.company}. Period ${record.from} to ${record.to}.`,
    ...(record.coverage
      ? [
          `${record.coverage.text} ${record.coverage.source} (${MARK_WORDS[record.coverage.mark as keyof typeof MARK_WORDS]}).`,
        ]
      : []),
  ];
}

function notes(record: InspectorRecord): string[] {
  return [
    ...(record.cut ? ["There is more in this period than one paper takes: ask for a shorter one."] : []),
    `SHA-256 over this record: ${record.digest}. An entry's digest is taken over the log entry as the device sent it; the job's signed receipts let anyone compare it. It does not bind the operator of the server.`,
    DEFERRAL,
  ];
}

function paragraph(
  sheet: Sheet,
  role: string,
  text: string,
  letters: { sizePt: number; bold?: boolean; colour?: string },
) {
  const at = { x: PAGE.leftPt, widthPt: CONTENT_PT };
  sheet.room(sheet.blockHeightPt(text, CONTENT_PT, letters));
  sheet.part(role, () => {
    sheet.y = sheet.block(text, { ...at, y: sheet.y }, letters);
  });
}

function drawTable(sheet: Sheet, lines: readonly RecordLine[]): void {
  if (lines.length === 0) {
    paragraph(sheet, "P", "Nothing is on record in this period.", { sizePt: 9.5 });
    return;
  }
  sheet.within("Table", () => {
    row(
      sheet,
      "TH",
      COLUMNS.map(({ head }) => head),
      { ...SMALL, bold: true },
    );
    for (const line of lines)
      row(
        sheet,
        "TD",
        COLUMNS.map(({ text }) => text(line)),
        SMALL,
      );
  });
}

function row(
  sheet: Sheet,
  role: "TH" | "TD",
  cells: readonly string[],
  letters: { sizePt: number; bold?: boolean },
): void {
  const height = Math.max(
    ...cells.map((text, index) => sheet.blockHeightPt(text, COLUMNS[index]!.widthPt - 6, letters)),
  );
  sheet.room(height + 5);
  const top = sheet.y;
  sheet.within("TR", () => {
    let x: number = PAGE.leftPt;
    for (const [index, text] of cells.entries()) {
      const { widthPt } = COLUMNS[index]!;
      sheet.part(role, () => sheet.block(text, { x, y: top, widthPt: widthPt - 6 }, letters));
      x += widthPt;
    }
  });
  sheet.y = top + height + 4;
  sheet.rule(sheet.y - 2);
}
