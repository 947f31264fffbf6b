import type { State } from "@/components/ui/state-mark";
import { pictureSentence } from "@/components/vacuum-picture/picture-words";
import { holdSubject } from "@/components/work/hold-subject";
import { type Certificate, SHOWS, SHOWS_NOT, type Standing } from "@/lib/certificate";
import type { Strength } from "@/lib/hvac/procedure";
import { drawHold } from "./hold-drawing";
import { ink, stateInk } from "./paper-ink";
import { CONTENT_PT, PAGE, type Sheet } from "./sheet";
import { drawSquareCode } from "./square-code";
import { drawState } from "./state-shape";

const TITLE = { sizePt: 17, bold: true, colour: ink.text } as const;
const HEADLINE = { sizePt: 12.5, bold: true } as const;
const HEADING = { sizePt: 9.5, bold: true, colour: ink.text } as const;
const BODY = { sizePt: 9, colour: ink.text } as const;
const SOFT = { sizePt: 9, colour: ink.soft } as const;
const SMALL = { sizePt: 7.6, colour: ink.soft } as const;

export const stateOfStanding: Record<Standing, State> = {
  proven: "proven",
  allowed: "needs-you",
  "left-out": "cannot-say",
};
const stateOfStrength: Record<Strength, State> = {
  strong: "proven",
  fair: "working",
  weak: "needs-you",
  none: "cannot-say",
};

const CODE_PT = 96;

/** The page a customer keeps: what was found, the picture of it, what it means, and the code to check it by. */
export function drawFrontPage(sheet: Sheet, certificate: Certificate): void {
  drawHead(sheet, certificate);
  drawFacts(sheet, certificate);
  drawFindings(sheet, certificate);
  const below = limitsHeightPt(sheet, certificate) + meaningHeightPt(sheet);
  drawPicture(sheet, certificate, PAGE.bottomPt - below);
  drawLimits(sheet, certificate);
  drawMeaning(sheet);
}

function drawHead(sheet: Sheet, { title, companyName, headline, standing, strength, checkUrl }: Certificate): void {
  const widthPt = CONTENT_PT - (checkUrl ? CODE_PT + 16 : 0);
  const at = { x: PAGE.leftPt, widthPt };
  sheet.part("P", () => {
    sheet.y = sheet.block(companyName, { ...at, y: sheet.y }, { ...SOFT, bold: true });
  });
  sheet.part("H1", () => {
    sheet.y = sheet.block(title, { ...at, y: sheet.y + 4 }, TITLE) + 8;
  });
  stateLine(sheet, stateOfStanding[standing], headline, HEADLINE);
  stateLine(sheet, stateOfStrength[strength], `Strength of the proof: ${strength}`, { sizePt: 10, bold: true });
  if (checkUrl) {
    sheet.part("P", () => {
      sheet.y = sheet.block(`Check this paper at ${checkUrl}`, { ...at, y: sheet.y + 3 }, SMALL);
    });
    drawCheckCode(sheet, checkUrl);
    sheet.y = Math.max(sheet.y, PAGE.topPt + CODE_PT + 4);
  }
  sheet.y += 8;
}

function drawCheckCode(sheet: Sheet, address: string): void {
  const draw = () => drawSquareCode(sheet.document, address, PAGE.rightPt - CODE_PT + 6, PAGE.topPt - 6, CODE_PT);
  sheet.part("Figure", draw, `Square code of the address ${address}`);
}

function stateLine(sheet: Sheet, state: State, words: string, letters: { sizePt: number; bold: boolean }): void {
  const { sizePt } = letters;
  sheet.decoration((document) => drawState(document, state, PAGE.leftPt + sizePt / 2, sheet.y + sizePt * 0.66, sizePt));
  sheet.part("P", () => {
    const at = { x: PAGE.leftPt + sizePt * 1.45, y: sheet.y, widthPt: CONTENT_PT - CODE_PT - 30 };
    sheet.y = sheet.block(words, at, { ...letters, colour: stateInk[state] }) + 2;
  });
}

/** Terms and values in two columns, read down the left one first. */
function drawFacts(sheet: Sheet, { facts }: Certificate): void {
  const columnPt = CONTENT_PT / 2 - 8;
  const termPt = 72;
  const top = sheet.y;
  let lowest = top;
  sheet.rule(top - 3);
  for (const column of [0, 1]) {
    const x = PAGE.leftPt + column * (columnPt + 16);
    let y = top;
    for (const { term, value } of column === 0 ? facts.slice(0, 5) : facts.slice(5)) {
      sheet.part("P", () => {
        sheet.block(term, { x, y: y + 1, widthPt: termPt }, SOFT);
        y = sheet.block(value, { x: x + termPt, y: y + 1, widthPt: columnPt - termPt }, BODY) + 1.5;
      });
    }
    lowest = Math.max(lowest, y);
  }
  sheet.rule(lowest + 3);
  sheet.y = lowest + 11;
}

function drawFindings(sheet: Sheet, { findings }: Certificate): void {
  const testPt = 96;
  const x = PAGE.leftPt + testPt;
  heading(sheet, "What was found");
  for (const { test, standing, word, sentences } of findings) {
    const state = stateOfStanding[standing];
    const said = sentences.join(" ");
    sheet.room(14 + sheet.blockHeightPt(said, CONTENT_PT - testPt, BODY));
    sheet.decoration((document) => drawState(document, state, x + 5, sheet.y + 6, 9));
    sheet.part("P", () => {
      sheet.block(test, { x: PAGE.leftPt, y: sheet.y, widthPt: testPt - 6 }, { ...BODY, bold: true });
      const words = { ...BODY, bold: true, colour: stateInk[state] };
      const y = sheet.block(word, { x: x + 14, y: sheet.y, widthPt: CONTENT_PT - testPt - 14 }, words);
      sheet.y = sheet.block(said, { x, y, widthPt: CONTENT_PT - testPt }, BODY) + 4;
    });
  }
  sheet.y += 4;
}

/** As high as what must stand under it on this page leaves room for, within reason. */
function drawPicture(sheet: Sheet, { hold }: Certificate, bottomPt: number): void {
  if (!hold) return;
  const { subject } = holdSubject(hold);
  const aroundPt = 52;
  const heightPt = Math.min(230, Math.max(130, bottomPt - sheet.y - aroundPt));
  sheet.room(heightPt + aroundPt);
  heading(sheet, "The isolated hold, as it was measured");
  const place = { x: PAGE.leftPt, y: sheet.y - 4, widthPt: CONTENT_PT, heightPt };
  const draw = () => drawHold(sheet.document, sheet.letters, subject, place);
  sheet.part("Figure", draw, pictureSentence(subject, "micron"));
  sheet.y += heightPt + 2;
  sheet.part("P", () => {
    const { evidence, readings } = hold;
    const words = `${readings.length} readings after the pump was closed off. Hatched: the course the computation expects; at the right edge the level it heads for, with its 95 % interval. ${evidence.gauge.label} at the ${evidence.gauge.location}, circuit of ${evidence.internalVolumeL} L.`;
    sheet.y = sheet.block(words, { x: PAGE.leftPt, y: sheet.y, widthPt: CONTENT_PT }, SMALL) + 7;
  });
}

function limitsHeightPt(sheet: Sheet, { limits }: Pick<Certificate, "limits">): number {
  if (limits.length === 0) return 0;
  return limits.reduce((sum, limit) => sum + sheet.blockHeightPt(limit, CONTENT_PT - 9, BODY) + 2, 22);
}

function drawLimits(sheet: Sheet, { limits }: Certificate): void {
  if (limits.length === 0) return;
  sheet.room(Math.min(limitsHeightPt(sheet, { limits }), 200));
  heading(sheet, "What limits the proof");
  for (const limit of limits) bullet(sheet, limit, PAGE.leftPt, CONTENT_PT, BODY);
  sheet.y += 5;
}

const MEANING = { sizePt: 7.8, colour: ink.text } as const;
const GAP_PT = 18;
const SIDES = [
  { title: "What this shows", lines: SHOWS, x: PAGE.leftPt, widthPt: CONTENT_PT * 0.4 - GAP_PT / 2 },
  {
    title: "What it does not show",
    lines: SHOWS_NOT,
    x: PAGE.leftPt + CONTENT_PT * 0.4 + GAP_PT / 2,
    widthPt: CONTENT_PT * 0.6 - GAP_PT / 2,
  },
] as const;

function meaningHeightPt(sheet: Sheet): number {
  const heights = SIDES.map(({ lines, widthPt }) =>
    lines.reduce((sum, line) => sum + sheet.blockHeightPt(line, widthPt - 9, MEANING) + 2, 22),
  );
  return Math.max(...heights);
}

/** Both sides of the meaning stand side by side, so that neither is read alone. */
function drawMeaning(sheet: Sheet): void {
  sheet.room(meaningHeightPt(sheet));
  sheet.rule(sheet.y);
  const top = sheet.y + 6;
  let lowest = top;
  for (const side of SIDES) {
    sheet.y = top;
    heading(sheet, side.title, side.x);
    for (const line of side.lines) bullet(sheet, line, side.x, side.widthPt, MEANING);
    lowest = Math.max(lowest, sheet.y);
  }
  sheet.y = lowest;
}

export function heading(sheet: Sheet, words: string, x: number = PAGE.leftPt): void {
  sheet.part("H2", () => {
    sheet.y = sheet.block(words, { x, y: sheet.y, widthPt: CONTENT_PT }, HEADING) + 3;
  });
}

export function bullet(
  sheet: Sheet,
  words: string,
  x: number,
  widthPt: number,
  letters: { sizePt: number; colour: string },
): void {
  sheet.decoration((document) => document.circle(x + 2.5, sheet.y + letters.sizePt * 0.7, 1.3).fill(ink.soft));
  sheet.part("P", () => {
    sheet.y = sheet.block(words, { x: x + 9, y: sheet.y, widthPt: widthPt - 9 }, letters) + 2;
  });
}
