import PDFDocument from "pdfkit";
import { type CertificateFonts, LetterCase, type Letters } from "./letters";
import { ink } from "./paper-ink";

/** As wide as A4 and as high as US Letter: fits both papers without being scaled. */
export const PAGE = { widthPt: 595.28, heightPt: 792, leftPt: 44, rightPt: 551, topPt: 40, bottomPt: 738 } as const;
export const CONTENT_PT = PAGE.rightPt - PAGE.leftPt;

type Part = PDFKit.PDFStructureElement;

/**
 * Pages of a tagged document: what is set stands in the reading order, with its role; lines and footers are decoration.
 * No clock and no chance: the same calls give the same bytes.
 */
export class Sheet {
  readonly document: PDFKit.PDFDocument;
  readonly letters: LetterCase;
  /** Where the next block begins, from the top of the page. */
  y: number = PAGE.topPt;
  readonly #root: Part;
  #parent: Part;

  constructor(about: { title: string; author: string; subject: string; madeAt: Date }, fonts: CertificateFonts) {
    const { title, author, subject, madeAt } = about;
    this.document = new PDFDocument({
      size: [PAGE.widthPt, PAGE.heightPt],
      margin: 0,
      compress: false, // each platform's own deflate gives other bytes
      pdfVersion: "1.7",
      lang: "en",
      tagged: true,
      displayTitle: true,
      bufferPages: true,
      info: {
        Title: title,
        Author: author,
        Subject: subject,
        Creator: "Dryhold",
        CreationDate: madeAt,
        ModDate: madeAt,
      },
      ...({ font: null } as object), // none of the standard fonts, which are not embedded
    });
    this.letters = new LetterCase(this.document, fonts);
    this.#root = this.document.struct("Document");
    this.document.addStructure(this.#root);
    this.#parent = this.#root;
  }

  /** Draws as one part of the document: a paragraph, a heading, a cell. */
  part(role: string, draw: () => void, alt?: string): void {
    this.#parent.add(this.document.struct(role, alt ? { alt } : {}, [draw]));
  }

  /** Parts drawn inside become children of one: rows of a table, cells of a row. */
  within(role: string, draw: () => void): void {
    const parent = this.#parent;
    const group = this.document.struct(role);
    parent.add(group);
    this.#parent = group;
    draw();
    this.#parent = parent;
    group.end();
  }

  /** Draws what says nothing: lines, washes, page numbers. */
  decoration(draw: (document: PDFKit.PDFDocument) => void): void {
    this.document.markContent("Artifact", { type: "Layout" });
    this.document.save();
    draw(this.document);
    this.document.restore();
    this.document.endMarkedContent();
  }

  rule(y: number, from: number = PAGE.leftPt, to: number = PAGE.rightPt): void {
    this.decoration((document) => document.moveTo(from, y).lineTo(to, y).lineWidth(0.5).stroke(ink.hairline));
  }

  /** Sets a block of text from `y` down; where its last line ends. */
  block(text: string, at: { x: number; y: number; widthPt: number }, letters: Letters): number {
    const leading = letters.sizePt * 1.32;
    let y = at.y;
    for (const line of this.letters.lines(text, letters, at.widthPt)) {
      this.letters.set(line, at.x, y + letters.sizePt, letters);
      y += leading;
    }
    return y;
  }

  blockHeightPt(text: string, widthPt: number, letters: Letters): number {
    return this.letters.lines(text, letters, widthPt).length * letters.sizePt * 1.32;
  }

  /** Makes sure that so much fits on this page, or begins another. */
  room(heightPt: number): void {
    if (this.y + heightPt <= PAGE.bottomPt) return;
    this.turn();
  }

  turn(): void {
    this.document.addPage();
    this.y = PAGE.topPt;
  }

  /** Sets the foot of every page and closes the document. */
  async finish(
    foot: (page: number, pages: number) => { left: string; right: string },
  ): Promise<Uint8Array<ArrayBuffer>> {
    const { start, count } = this.document.bufferedPageRange();
    for (let page = 0; page < count; page += 1) {
      this.document.switchToPage(start + page);
      const { left, right } = foot(page + 1, count);
      const letters = { sizePt: 7.5, colour: ink.soft };
      this.document.markContent("Artifact", { type: "Pagination" });
      this.letters.set(left, PAGE.leftPt, PAGE.heightPt - 32, letters);
      const width = this.letters.widthPt(right, letters);
      this.letters.set(right, PAGE.rightPt - width, PAGE.heightPt - 32, letters);
      this.document.endMarkedContent();
    }
    this.#root.end();
    return written(this.document);
  }
}

function written(document: PDFKit.PDFDocument): Promise<Uint8Array<ArrayBuffer>> {
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  return new Promise((resolve, reject) => {
    document.on("data", (chunk: Uint8Array<ArrayBuffer>) => chunks.push(chunk));
    document.on("end", () => resolve(joined(chunks)));
    document.on("error", reject);
    document.end();
  });
}

function joined(chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(chunks.reduce((sum, { byteLength }) => sum + byteLength, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.byteLength;
  }
  return bytes;
}
