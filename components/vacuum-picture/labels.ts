import { placeLabels } from "./marks";
import { type PictureUnit, pressureNumber, pressureWords } from "./scale";
import type { PictureSubject } from "./subject";
import { isDrawable, type VacuumTrace } from "./trace";

export type LabelKey = "last" | "settles" | "limit" | "target" | "water";
/** Words at the end of a line: `lineY` is the line, `y` the middle of its words. */
export type Label = { key: LabelKey; lineY: number; y: number; words: string[] };

const importance: Record<LabelKey, number> = { last: 5, settles: 4, limit: 3, target: 3, water: 2 };

/** The words at the right edge, moved apart so that none cover each other. */
export function layoutLabels(
  subject: PictureSubject,
  frame: {
    unit: PictureUnit;
    textPx: number;
    lastWord: string;
    y: (pressurePa: number) => number;
    top: number;
    bottom: number;
  },
): Label[] {
  const wordsOf = listWords(subject, frame.unit, frame.lastWord);
  const lineY = new Map(wordsOf.map((label) => [label.key as string, frame.y(label.pressurePa)]));
  const placed = placeLabels(
    wordsOf.map((label) => ({
      key: label.key,
      wantedY: frame.y(label.pressurePa),
      heightPx: (label.words.length * 1.2 + 0.25) * frame.textPx,
      priority: importance[label.key],
    })),
    frame.top - frame.textPx,
    frame.bottom + frame.textPx,
  );
  return placed.map(({ key, y }) => ({
    key: key as LabelKey,
    y,
    lineY: lineY.get(key) as number,
    words: wordsOf.find((label) => label.key === key)?.words ?? [],
  }));
}

function listWords(subject: PictureSubject, unit: PictureUnit, lastWord: string) {
  const { water, limitPa, targetPa, settlesAt } = subject;
  const labels: { key: LabelKey; pressurePa: number; words: string[] }[] = [];
  const last = lastDrawable(subject.trace);
  if (last !== undefined) {
    labels.push({ key: "last", pressurePa: last, words: [`${lastWord} ${pressureWords(last, unit)}`] });
  }
  if (settlesAt) {
    const interval = `${pressureNumber(settlesAt.loPa, unit)} to ${pressureWords(settlesAt.hiPa, unit)}`;
    labels.push({
      key: "settles",
      pressurePa: settlesAt.estimatePa,
      words: [`heading for ${pressureNumber(settlesAt.estimatePa, unit)}`, interval],
    });
  }
  if (limitPa !== undefined) {
    labels.push({ key: "limit", pressurePa: limitPa, words: [`limit ${pressureWords(limitPa, unit)}`] });
  }
  if (targetPa !== undefined) {
    labels.push({ key: "target", pressurePa: targetPa, words: [`target ${pressureWords(targetPa, unit)}`] });
  }
  if (water) {
    labels.push({ key: "water", pressurePa: water.pressurePa, words: ["water boils here", `at ${water.wallWords}`] });
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
