const THIN = new Set("iIljftr.,:;'’|!()[] ");
const WIDE = new Set("mwMW@%—");

/** Estimated width of a letter as a share of the letters' height; on the wide side, so that what is cut is never too long. */
function letterEm(letter: string): number {
  if (THIN.has(letter)) return 0.31;
  if (WIDE.has(letter)) return 0.84;
  return letter >= "A" && letter <= "Z" ? 0.65 : 0.55;
}

/** Fewer letters than this name nobody. */
const FEWEST = 3;

/** As many of the first letters as have room in a width, in px, at a size of letters, in px; none where they would be too few. */
export function fitWords(words: string, widthPx: number, letterPx: number): string {
  let leftEm = widthPx / letterPx;
  let n = 0;
  for (const letter of words) {
    leftEm -= letterEm(letter);
    if (leftEm < 0) break;
    n += letter.length;
  }
  return n === words.length || n >= FEWEST ? words.slice(0, n).trimEnd() : "";
}
