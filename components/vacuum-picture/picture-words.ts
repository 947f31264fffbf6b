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
    zone ? clockWords(atS, zone, true) : `${elapsedWords(atS - (startS ?? 0))} after the start`;
  const { extent, undrawable } = measureTrace(trace);
  const facts: Fact[] = [{ term: "Readings", value: readingsWords(trace.atS.length, undrawable) }];
  if (extent) {
    const at = (index: number) =>
      `${pressureWords(trace.pressureAbsPa[index] as number, unit)}, ${when(trace.atS[index] as number)}`;
    facts.push({ term: "First", value: at(extent.first) }, { term: "Lowest", value: at(extent.lowest) });
    facts.push({ term: "Last", value: at(extent.last) });
  }
  if (isolatedAtS !== undefined) facts.push({ term: "Isolated", value: when(isolatedAtS) });
  if (targetPa !== undefined) facts.push({ term: "Target", value: pressureWords(targetPa, unit) });
  if (limitPa !== undefined) facts.push({ term: "Limit", value: pressureWords(limitPa, unit) });
  if (water) facts.push({ term: `Water boils at ${water.wallWords}`, value: pressureWords(water.pressurePa, unit) });
  if (settlesAt) {
    const [estimate, lo, hi] = [settlesAt.estimatePa, settlesAt.loPa, settlesAt.hiPa].map((pa) =>
      pressureWords(pa, unit),
    );
    facts.push({ term: "Heading for", value: `${estimate}, between ${lo} and ${hi}` });
  }
  for (const event of events) facts.push({ term: event.words, value: when(event.atS) });
  return facts;
}

function readingsWords(count: number, undrawable: number): string {
  if (count === 0) return "none yet";
  const all = count.toLocaleString("en-US");
  return undrawable === 0 ? all : `${all}, of which ${undrawable.toLocaleString("en-US")} are no pressure and left out`;
}

/** One sentence for the picture as a whole, read first. */
export function pictureSentence(subject: PictureSubject, unit: PictureUnit): string {
  const last = lastDrawable(subject.trace);
  if (last === undefined) return "No readings yet.";
  const parts = [`Pressure over time on a logarithmic scale, last reading ${pressureWords(last, unit)}`];
  if (subject.targetPa !== undefined) {
    parts.push(
      `${last <= subject.targetPa ? "at or under" : "above"} the target of ${pressureWords(subject.targetPa, unit)}`,
    );
  }
  if (subject.settlesAt) parts.push(`heading for ${pressureWords(subject.settlesAt.estimatePa, unit)}`);
  return `${parts.join(", ")}.`;
}
