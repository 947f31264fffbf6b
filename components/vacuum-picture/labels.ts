import { vacuumPictureWords } from "@/lib/words/en/vacuum-picture";
import { placeLabels } from "./marks";
import { type PictureUnit, pressureNumber, pressureWords } from "./scale";
import type { PictureSubject } from "./subject";
import { isDrawable, type VacuumTrace } from "./trace";

export type LabelKey = "last" | "settles" | "limit" | "target" | "water";
export type WordedLine = { key: LabelKey; pressurePa: number; words: string[] };
/** Words at the end of a line: `lineY` is the line, `y` the middle of its words. */
export type Label = { key: LabelKey; lineY: number; y: number; words: string[] };

const importance: Record<LabelKey, number> = { last: 5, settles: 4, limit: 3, target: 3, water: 2 };

/** The words at the right edge, moved apart so that none cover each other. */
export function layoutLabels(
  worded: readonly WordedLine[],
  frame: { textPx: number; y: (pressurePa: number) => number; top: number; bottom: number },
): Label[] {
  const placed = placeLabels(
    worded.map((line) => ({
      key: line.key,
      wantedY: frame.y(line.pressurePa),
      heightPx: (line.words.length * 1.2 + 0.25) * frame.textPx,
      priority: importance[line.key],
    })),
    frame.top - frame.textPx,
    frame.bottom + frame.textPx,
  );
  return placed.flatMap(({ key, y }) => {
    const line = worded.find((one) => one.key === key);
    return line ? [{ key: line.key, y, lineY: frame.y(line.pressurePa), words: line.words }] : [];
  });
}

/** Room the longest words need, in pixels; bold and wide letters are allowed for. */
export function labelsWidthPx(worded: readonly WordedLine[], textPx: number): number {
  const longest = worded.flatMap((line) => line.words).reduce((most, words) => Math.max(most, words.length), 0);
  return Math.ceil(longest * 0.56 * textPx + 20 + textPx * 0.7);
}

/** What stands at the end of each line. `brief` leaves the unit to the axis, where there is little room. */
export function listWords(subject: PictureSubject, unit: PictureUnit, lastWord: string, brief: boolean): WordedLine[] {
  const { water, limitPa, targetPa, settlesAt } = subject;
  const pressure = (pressurePa: number) => (brief ? pressureNumber(pressurePa, unit) : pressureWords(pressurePa, unit));
  const labels: WordedLine[] = [];
  const last = lastDrawable(subject.trace);
  if (last !== undefined) {
    labels.push({ key: "last", pressurePa: last, words: [`${lastWord} ${pressure(last)}`] });
  }
  if (settlesAt) {
    const interval = vacuumPictureWords.between(pressureNumber(settlesAt.loPa, unit), pressure(settlesAt.hiPa));
    labels.push({
      key: "settles",
      pressurePa: settlesAt.estimatePa,
      words: [vacuumPictureWords.headingFor(pressureNumber(settlesAt.estimatePa, unit)), interval],
    });
  }
  if (limitPa !== undefined) {
    labels.push({ key: "limit", pressurePa: limitPa, words: [vacuumPictureWords.limitAt(pressure(limitPa))] });
  }
  if (targetPa !== undefined) {
    labels.push({ key: "target", pressurePa: targetPa, words: [vacuumPictureWords.targetAt(pressure(targetPa))] });
  }
  if (water) {
    labels.push({
      key: "water",
      pressurePa: water.pressurePa,
      words: [vacuumPictureWords.waterBoilsHere, vacuumPictureWords.atWall(water.wallWords)],
    });
  }
  return labels;
}

/** The last pressure that can be drawn, in Pa. */
export function lastDrawable(trace: VacuumTrace): number | undefined {
  for (let index = trace.atS.length - 1; index >= 0; index -= 1) {
    if (isDrawable(trace, index)) return trace.pressureAbsPa[index];
  }
  return undefined;
}
