import { scaleLinear } from "d3-scale";

/** The paper a chart is drawn on, in pixels. */
export interface Frame {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly textPx: number;
}

export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Tick {
  readonly at: number;
  readonly px: number;
  readonly words: string;
}

/** A share as people read it; small ones keep a decimal. */
export function shareWords(share: number): string {
  const percent = share * 100;
  return `${percent > 0 && percent < 9.95 ? percent.toFixed(1).replace(/\.0$/, "") : Math.round(percent)} %`;
}

/** Width of a text of this many signs at most, on the safe side. */
export function textWidthPx(longest: string, textPx: number): number {
  return Math.ceil(longest.length * textPx * 0.55);
}

export function longestOf(texts: readonly string[]): string {
  return texts.reduce((longest, text) => (text.length > longest.length ? text : longest), "");
}

/** A scale from zero to a round number at or above `highest`, with its ticks. */
export function scaleFromZero(
  highest: number,
  [from, to]: readonly [number, number],
  most: number,
  words: (at: number) => string,
) {
  const scale = scaleLinear([0, highest > 0 ? highest : 1], [from, to]).nice(most);
  const ticks: Tick[] = scale.ticks(most).map((at) => ({ at, px: scale(at), words: words(at) }));
  return { at: (value: number) => scale(value), top: scale.domain()[1]!, ticks };
}
