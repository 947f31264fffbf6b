import type { Stretch, VacuumTrace } from "./trace";

/**
 * The samples of one stretch worth drawing at `columns` pixels across: of every pixel column its first, lowest,
 * highest and last, in time order. One pass; a single spike or dip in 50 000 samples is never lost.
 */
export function keepExtremes(
  trace: VacuumTrace,
  stretch: Stretch,
  span: { fromS: number; toS: number },
  columns: number,
): number[] {
  const { atS, pressureAbsPa } = trace;
  const columnsPerS = columns / (span.toS - span.fromS);
  const kept: number[] = [];
  let column = Number.NaN;
  let first = stretch.from;
  let lowest = first;
  let highest = first;
  for (let index = stretch.from; index < stretch.to; index += 1) {
    const here = Math.floor(((atS[index] as number) - span.fromS) * columnsPerS);
    if (here !== column) {
      if (index > stretch.from) keepColumn(kept, first, lowest, highest, index - 1);
      column = here;
      first = index;
      lowest = index;
      highest = index;
      continue;
    }
    const pressure = pressureAbsPa[index] as number;
    if (pressure < (pressureAbsPa[lowest] as number)) lowest = index;
    if (pressure > (pressureAbsPa[highest] as number)) highest = index;
  }
  if (stretch.to > stretch.from) keepColumn(kept, first, lowest, highest, stretch.to - 1);
  return kept;
}

function keepColumn(kept: number[], first: number, lowest: number, highest: number, last: number) {
  kept.push(first);
  for (const extreme of lowest < highest ? [lowest, highest] : [highest, lowest]) {
    if (extreme > (kept[kept.length - 1] as number)) kept.push(extreme);
  }
  if (last > (kept[kept.length - 1] as number)) kept.push(last);
}
