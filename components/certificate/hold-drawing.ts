import { layoutPicture, type PictureLayout } from "@/components/vacuum-picture/layout";
import type { PictureSubject } from "@/components/vacuum-picture/subject";
import type { LetterCase } from "./letters";
import { ink } from "./paper-ink";

/** Told apart by their dashes as on the screens. */
const dashOf = { water: [1.5, 3], limit: [10, 2.5, 2, 2.5], target: [7, 4] } as const;
const HATCH_PT = 4.5;
const SMALL = { sizePt: 7.5, colour: ink.soft } as const;

/** The vacuum picture in lines and letters on paper, from the same layout as on the screens. */
export function drawHold(
  document: PDFKit.PDFDocument,
  letters: LetterCase,
  subject: PictureSubject,
  place: { x: number; y: number; widthPt: number; heightPt: number },
): void {
  const frame = { widthPx: place.widthPt, heightPx: place.heightPt, textPx: 8, unit: "micron", closeUp: true } as const;
  const layout = layoutPicture(subject, frame);
  document.save().translate(place.x, place.y);
  drawGround(document, layout);
  drawAxes(document, letters, layout);
  for (const { key, y } of layout.lines) {
    const { left, right } = layout.plot;
    document.moveTo(left, y).lineTo(right, y).lineWidth(0.9);
    document
      .dash(dashOf[key] as unknown as number, {})
      .stroke(ink.text)
      .undash();
  }
  if (layout.band) drawBand(document, layout, layout.band);
  for (const path of layout.traces)
    document.path(path).lineWidth(1.4).lineJoin("round").lineCap("round").stroke(ink.text);
  for (const dot of layout.dots) document.circle(dot.x, dot.y, 1.8).fill(ink.text);
  if (layout.end) document.circle(layout.end.x, layout.end.y, 2.4).fill(ink.text);
  if (layout.settle) drawSettle(document, layout.plot.right, layout.settle);
  drawLabels(document, letters, layout);
  document.restore();
}

function drawGround(document: PDFKit.PDFDocument, { plot, isolatedX }: PictureLayout): void {
  if (isolatedX === null) return;
  document.rect(isolatedX, plot.top, Math.max(0, plot.right - isolatedX), plot.bottom - plot.top).fill(ink.wash);
}

function drawAxes(document: PDFKit.PDFDocument, letters: LetterCase, layout: PictureLayout): void {
  const { plot } = layout;
  const isCovered = (y: number) => layout.lines.some((line) => Math.abs(line.y - y) < 2);
  for (const tick of layout.pressureTicks) {
    const to = tick.words && !isCovered(tick.y) ? plot.right : plot.left;
    document
      .moveTo(plot.left - 3, tick.y)
      .lineTo(to, tick.y)
      .lineWidth(0.5);
    document.stroke(tick.words ? ink.hairline : ink.edge);
    if (tick.words) letters.set(tick.words, plot.left - 6 - letters.widthPt(tick.words, SMALL), tick.y + 2.6, SMALL);
  }
  letters.set("micron", plot.left - 6 - letters.widthPt("micron", SMALL), plot.top - 4, SMALL);
  for (const tick of layout.timeTicks) {
    document
      .moveTo(tick.x, plot.bottom)
      .lineTo(tick.x, plot.bottom + 3)
      .lineWidth(0.5)
      .stroke(ink.edge);
    const words = tick.words ?? "";
    letters.set(words, tick.x - letters.widthPt(words, SMALL) / 2, plot.bottom + 11.5, SMALL);
  }
  document.path(`M${plot.left} ${plot.top}V${plot.bottom}H${plot.right}`).lineWidth(0.6).stroke(ink.edge);
}

/** The expected band as slanted lines, which stay when the paper is copied in black and white. */
function drawBand(document: PDFKit.PDFDocument, { plot }: PictureLayout, band: { area: string; mid: string }): void {
  if (band.area === "") return;
  const height = plot.bottom - plot.top;
  document.save().path(band.area).clip();
  for (let x = plot.left - height; x < plot.right; x += HATCH_PT) {
    document.moveTo(x, plot.bottom).lineTo(x + height, plot.top);
  }
  document.lineWidth(0.45).stroke(ink.edge);
  document.restore();
  document.path(band.mid).lineWidth(0.9).dash(3, { space: 2.2 }).stroke(ink.soft).undash();
}

function drawSettle(
  document: PDFKit.PDFDocument,
  right: number,
  settle: { y: number; loY: number; hiY: number },
): void {
  const x = right + 6;
  document.path(
    `M${x} ${settle.hiY}V${settle.loY}M${x - 3.5} ${settle.hiY}H${x + 3.5}M${x - 3.5} ${settle.loY}H${x + 3.5}`,
  );
  document.lineWidth(1.3).stroke(ink.text);
  document.circle(x, settle.y, 2.6).fill(ink.text);
}

function drawLabels(document: PDFKit.PDFDocument, letters: LetterCase, layout: PictureLayout): void {
  const lineX = layout.plot.right + (layout.settle ? 12 : 2);
  const wordsX = lineX + 12;
  for (const label of layout.labels) {
    document
      .moveTo(lineX, label.lineY)
      .lineTo(wordsX - 3, label.y)
      .lineWidth(0.5)
      .stroke(ink.edge);
    const firstY = label.y - ((label.words.length - 1) * 9.6) / 2 + 2.7;
    for (const [index, words] of label.words.entries()) {
      const bold = label.key === "last" && index === 0;
      letters.set(words, wordsX, firstY + index * 9.6, {
        sizePt: 8,
        bold,
        colour: index > 0 ? ink.soft : ink.text,
      });
    }
  }
}
