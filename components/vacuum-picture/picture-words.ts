import { vacuumPictureWords } from "@/lib/words/en/vacuum-picture";
import { lastDrawable } from "./labels";
import { clockWords, elapsedWords, type PictureUnit, pressureWords } from "./scale";
import type { PictureSubject } from "./subject";
import { measureTrace } from "./trace";

export type Fact = { term: string; value: string };

/** The picture's content as names and values: what a person who cannot see it, or wants the figures, reads. */
export function listPictureFacts(subject: PictureSubject, unit: PictureUnit, zone?: string): Fact[] {
  const { trace, water, targetPa, limitPa, isolatedAtS, events = [], settlesAt } = subject;
  const startS = trace.atS[0];
  const when = (atS: number) =>
    zone ? clockWords(atS, zone, true) : vacuumPictureWords.afterTheStart(elapsedWords(atS - (startS ?? 0)));
  const { extent, undrawable } = measureTrace(trace);
  const facts: Fact[] = [
    { term: vacuumPictureWords.facts.readings, value: readingsWords(trace.atS.length, undrawable) },
  ];
  if (extent) {
    const at = (index: number) =>
      `${pressureWords(trace.pressureAbsPa[index] as number, unit)}, ${when(trace.atS[index] as number)}`;
    facts.push(
      { term: vacuumPictureWords.facts.first, value: at(extent.first) },
      { term: vacuumPictureWords.facts.lowest, value: at(extent.lowest) },
    );
    facts.push({ term: vacuumPictureWords.facts.last, value: at(extent.last) });
  }
  if (isolatedAtS !== undefined) facts.push({ term: vacuumPictureWords.facts.isolated, value: when(isolatedAtS) });
  if (targetPa !== undefined)
    facts.push({ term: vacuumPictureWords.facts.target, value: pressureWords(targetPa, unit) });
  if (limitPa !== undefined) facts.push({ term: vacuumPictureWords.facts.limit, value: pressureWords(limitPa, unit) });
  if (water)
    facts.push({
      term: vacuumPictureWords.facts.waterBoilsAt(water.wallWords),
      value: pressureWords(water.pressurePa, unit),
    });
  if (settlesAt) {
    const words = (pa: number) => pressureWords(pa, unit);
    const { estimatePa, loPa, hiPa } = settlesAt;
    facts.push({
      term: vacuumPictureWords.facts.headingFor,
      value: vacuumPictureWords.estimateBetween(words(estimatePa), words(loPa), words(hiPa)),
    });
  }
  for (const event of events) facts.push({ term: event.words, value: when(event.atS) });
  return facts;
}

function readingsWords(count: number, undrawable: number): string {
  if (count === 0) return vacuumPictureWords.noneYet;
  const all = count.toLocaleString("en-US");
  return undrawable === 0 ? all : vacuumPictureWords.readingsLeftOut(all, undrawable.toLocaleString("en-US"));
}

/** One sentence for the picture as a whole, read first. */
export function pictureSentence(subject: PictureSubject, unit: PictureUnit): string {
  const last = lastDrawable(subject.trace);
  if (last === undefined) return `${vacuumPictureWords.noReadingsYet}.`;
  const parts = [vacuumPictureWords.pressureOverTime(pressureWords(last, unit))];
  if (subject.targetPa !== undefined) {
    parts.push(vacuumPictureWords.againstTarget(last <= subject.targetPa, pressureWords(subject.targetPa, unit)));
  }
  if (subject.settlesAt) parts.push(vacuumPictureWords.headingFor(pressureWords(subject.settlesAt.estimatePa, unit)));
  return `${parts.join(", ")}.`;
}
