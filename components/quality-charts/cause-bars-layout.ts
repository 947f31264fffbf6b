import { type Frame, type Plot, scaleFromZero } from "./frame";

export interface CauseBar {
  readonly key: string;
  readonly words: string;
  readonly callbacks: number;
  readonly ofWeakProof: number;
  readonly costWords: string;
}

export interface CauseLayout {
  readonly plot: Plot;
  readonly bars: readonly {
    readonly key: string;
    readonly wordsY: number;
    readonly y: number;
    readonly heightPx: number;
    readonly widthPx: number;
    /** The part of the bar whose jobs had weak proof or none. */
    readonly weakWidthPx: number;
  }[];
}

const ROW = 3.4;

/** A bar a cause, its words above it: long words keep their line on a phone too. */
export function layoutCauses(causes: readonly CauseBar[], { widthPx, textPx }: Frame): CauseLayout {
  const plot = { left: 0, right: widthPx - textPx * 4, top: 0, bottom: causes.length * ROW * textPx };
  const x = scaleFromZero(Math.max(1, ...causes.map(({ callbacks }) => callbacks)), [plot.left, plot.right], 5, String);
  return {
    plot,
    bars: causes.map(({ key, callbacks, ofWeakProof }, index) => ({
      key,
      wordsY: (index * ROW + 1.2) * textPx,
      y: (index * ROW + 1.7) * textPx,
      heightPx: textPx * 1.1,
      widthPx: x.at(callbacks) - plot.left,
      weakWidthPx: x.at(ofWeakProof) - plot.left,
    })),
  };
}

export function causeBarsHeightPx(causes: number, textPx: number): number {
  return Math.ceil(causes * ROW * textPx + textPx);
}
