import type { State } from "@/components/ui/state-mark";
import { type Certificate, digestGroups } from "@/lib/certificate";
import { bullet, heading, stateOfStanding } from "./front-page";
import type { Letters } from "./letters";
import { ink, stateInk } from "./paper-ink";
import { CONTENT_PT, PAGE, type Sheet } from "./sheet";
import { drawState } from "./state-shape";

const CELL = { sizePt: 8, colour: ink.text } as const;
const CELL_BOLD = { ...CELL, bold: true } as const;
const CELL_SOFT = { ...CELL, colour: ink.soft } as const;

/** The pages an inspector reads: every step with its numbers, criteria and sources, instruments, people, digest. */
export function drawRecordPages(sheet: Sheet, certificate: Certificate): void {
  sheet.turn();
  table(sheet, "The steps, in their order", [0.185, 0.095, 0.52, 0.2], stepRows(certificate));
  table(
    sheet,
    "Criteria and where they are written",
    [0.185, 0.465, 0.35],
    certificate.criteria.map(({ step, asked, sources }) => [bold(step), plain(asked), soft(sources)]),
  );
  table(
    sheet,
    "Instruments",
    [0.2, 0.24, 0.26, 0.3],
    certificate.instruments.map((each) => [
      bold(each.label),
      plain(each.used),
      plain(each.calibration),
      soft(each.detail),
    ]),
  );
  table(
    sheet,
    "People",
    [0.2, 0.56, 0.24],
    certificate.people.map(({ name, did, certificate: number }) => [
      bold(name),
      plain(did),
      soft(number === null ? "" : `certificate ${number}`),
    ]),
  );
  if (certificate.overrides.length > 0) drawOverrides(sheet, certificate);
  drawDigest(sheet, certificate);
}

function stepRows({ steps }: Certificate): Cell[][] {
  return steps.map((step) => {
    const state = stateOfStanding[step.standing];
    return [
      bold(step.step),
      { words: [step.word], letters: { ...CELL, colour: stateInk[state] }, state },
      { words: step.lines, letters: CELL },
      { words: step.by, letters: CELL_SOFT },
    ];
  });
}

function drawOverrides(sheet: Sheet, { overrides }: Certificate): void {
  const heightPt = overrides.reduce((sum, each) => sum + sheet.blockHeightPt(each, CONTENT_PT - 9, CELL) + 2, 24);
  sheet.room(heightPt);
  heading(sheet, "Overrides");
  for (const override of overrides) bullet(sheet, override, PAGE.leftPt, CONTENT_PT, CELL);
  sheet.y += 8;
}

interface Cell {
  readonly words: readonly string[];
  readonly letters: Letters;
  readonly state?: State;
}
const plain = (words: string): Cell => ({ words: [words], letters: CELL });
const soft = (words: string): Cell => ({ words: [words], letters: CELL_SOFT });
const bold = (words: string): Cell => ({ words: [words], letters: CELL_BOLD });

/** A table under its heading, on one page where it fits one; a row is never torn. Columns are shares of the width. */
function table(sheet: Sheet, title: string, shares: readonly number[], lines: readonly (readonly Cell[])[]): void {
  const heightPt = lines.reduce((sum, cells) => sum + rowHeightPt(sheet, shares, cells), 20);
  sheet.room(heightPt < PAGE.bottomPt - PAGE.topPt ? heightPt : 60);
  heading(sheet, title);
  sheet.within("Table", () => {
    for (const cells of lines) drawRow(sheet, shares, cells);
  });
  sheet.y += 9;
}

const widthPt = (share: number) => share * CONTENT_PT - 8;

function rowHeightPt(sheet: Sheet, shares: readonly number[], cells: readonly Cell[]): number {
  const heights = cells.map(({ words, letters }, index) =>
    words.reduce((sum, line) => sum + sheet.blockHeightPt(line, widthPt(shares[index]!), letters), 0),
  );
  return Math.max(...heights) + 5;
}

function drawRow(sheet: Sheet, shares: readonly number[], cells: readonly Cell[]): void {
  const heightPt = rowHeightPt(sheet, shares, cells);
  sheet.room(heightPt);
  sheet.rule(sheet.y);
  const top = sheet.y + 2.5;
  let x: number = PAGE.leftPt;
  sheet.within("TR", () => {
    for (const [index, { words, letters, state }] of cells.entries()) {
      if (state) sheet.decoration((document) => drawState(document, state, x - 7, top + 5.6, 7.5));
      sheet.part(index === 0 ? "TH" : "TD", () => {
        let y = top;
        for (const line of words) y = sheet.block(line, { x, y, widthPt: widthPt(shares[index]!) }, letters);
      });
      x += shares[index]! * CONTENT_PT;
    }
  });
  sheet.y += heightPt;
}

function drawDigest(sheet: Sheet, { closing, paper, rules }: Certificate): void {
  sheet.room(64);
  heading(sheet, "Digest");
  const at = () => ({ x: PAGE.leftPt, y: sheet.y, widthPt: CONTENT_PT });
  sheet.part("P", () => {
    sheet.y = sheet.block(`${closing} SHA-256 over all of them in canonical form (RFC 8785, FIPS 180-4):`, at(), CELL);
  });
  sheet.part("P", () => {
    sheet.y = sheet.block(digestGroups(paper.digest), at(), { sizePt: 9, bold: true, colour: ink.text }) + 2;
  });
  sheet.part("P", () => {
    sheet.y = sheet.block(`Judged by the rules ${rules}.`, at(), CELL_SOFT);
  });
}
