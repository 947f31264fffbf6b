import type PDFDocument from "pdfkit";

/** The font files a certificate is set in; the latin-ext ones carry the letters the others lack. */
export interface CertificateFonts {
  readonly regular: Uint8Array;
  readonly regularExt: Uint8Array;
  readonly bold: Uint8Array;
  readonly boldExt: Uint8Array;
}

export interface Letters {
  readonly sizePt: number;
  readonly bold?: boolean;
  readonly colour?: string;
}

type Face = "regular" | "regularExt" | "bold" | "boldExt";
interface Run {
  readonly face: Face;
  readonly text: string;
}

const OPTIONS = { lineBreak: false, features: ["tnum"] as PDFKit.Mixins.OpenTypeFeatures[] };
const STAND_IN = "?";

/** Measures, breaks and sets text in the certificate's letters, each glyph from the first file that has it. */
export class LetterCase {
  readonly #document: PDFKit.PDFDocument;
  readonly #covers = new Map<Face, (codePoint: number) => boolean>();
  /** Widths at one point of size: the same words stand in many lines. */
  readonly #widths = new Map<string, number>();

  constructor(document: InstanceType<typeof PDFDocument>, fonts: CertificateFonts) {
    this.#document = document;
    for (const face of ["regular", "regularExt", "bold", "boldExt"] as const) {
      document.registerFont(face, fonts[face] as unknown as ArrayBuffer);
      document.font(face);
      // The library asks the font for its glyphs and does not pass the question on.
      const { font } = (document as unknown as { _font: { font: { hasGlyphForCodePoint(at: number): boolean } } })
        ._font;
      this.#covers.set(face, (codePoint) => font.hasGlyphForCodePoint(codePoint));
    }
  }

  widthPt(text: string, letters: Letters): number {
    return this.#runs(text, letters).reduce((sum, run) => sum + this.#widthOf(run), 0) * letters.sizePt;
  }

  #widthOf({ face, text }: Run): number {
    const key = `${face} ${text}`;
    const known = this.#widths.get(key);
    if (known !== undefined) return known;
    const width = this.#document.font(face).fontSize(100).widthOfString(text, OPTIONS) / 100;
    this.#widths.set(key, width);
    return width;
  }

  /** The text in lines no wider than this; a word too long for a line is cut. */
  lines(text: string, letters: Letters, widthPt: number): string[] {
    const spacePt = this.widthPt(" ", letters);
    const lines: string[] = [];
    let line: string[] = [];
    let used = 0;
    for (const word of text.split(/\s+/).flatMap((each) => this.#cut(each, letters, widthPt))) {
      const wordPt = this.widthPt(word, letters);
      if (line.length > 0 && used + spacePt + wordPt > widthPt) {
        lines.push(line.join(" "));
        line = [];
        used = 0;
      }
      used += line.length > 0 ? spacePt + wordPt : wordPt;
      line.push(word);
    }
    return line.length > 0 ? [...lines, line.join(" ")] : lines;
  }

  #cut(word: string, letters: Letters, widthPt: number): string[] {
    if (word === "" || this.widthPt(word, letters) <= widthPt) return word === "" ? [] : [word];
    let fits = word.length - 1;
    while (fits > 1 && this.widthPt(word.slice(0, fits), letters) > widthPt) fits -= 1;
    return [word.slice(0, fits), ...this.#cut(word.slice(fits), letters, widthPt)];
  }

  /** Sets one line with its baseline at `y`. */
  set(text: string, x: number, y: number, letters: Letters): void {
    const document = this.#document;
    let at = x;
    for (const run of this.#runs(text, letters)) {
      document
        .font(run.face)
        .fontSize(letters.sizePt)
        .fillColor(letters.colour ?? "black");
      document.text(run.text, at, y, { ...OPTIONS, baseline: "alphabetic" });
      at += this.#widthOf(run) * letters.sizePt;
    }
  }

  #runs(text: string, { bold = false }: Letters): Run[] {
    const [first, second]: [Face, Face] = bold ? ["bold", "boldExt"] : ["regular", "regularExt"];
    const runs: { face: Face; text: string }[] = [];
    for (const letter of text.normalize("NFC")) {
      const at = letter.codePointAt(0)!;
      const face = this.#covers.get(first)!(at) ? first : this.#covers.get(second)!(at) ? second : null;
      const last = runs.at(-1);
      const run = { face: face ?? first, text: face === null ? STAND_IN : letter };
      if (last?.face === run.face) last.text += run.text;
      else runs.push(run);
    }
    return runs;
  }
}
