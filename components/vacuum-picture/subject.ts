import type { EventKind } from "./marks";
import type { PictureUnit, Span } from "./scale";
import type { VacuumTrace } from "./trace";

export type PictureEvent = { id: string; atS: number; kind: EventKind; words: string };
export type Band = {
  atS: ArrayLike<number>;
  loPa: ArrayLike<number>;
  midPa: ArrayLike<number>;
  hiPa: ArrayLike<number>;
};
export type SettlesAt = { estimatePa: number; loPa: number; hiPa: number };

/** What is to be seen, in SI; the picture's own units are the person's. */
export type PictureSubject = {
  trace: VacuumTrace;
  targetPa?: number | undefined;
  limitPa?: number | undefined;
  /** Where water boils at the wall's temperature; the words say that temperature ("21.5 °C"). */
  water?: { pressurePa: number; wallWords: string } | undefined;
  isolatedAtS?: number | undefined;
  events?: readonly PictureEvent[] | undefined;
  band?: Band | undefined;
  settlesAt?: SettlesAt | undefined;
};

export type PictureFrame = {
  widthPx: number;
  heightPx: number;
  textPx: number;
  unit: PictureUnit;
  /** The time shown; the whole record (and band) when left out. */
  span?: Span | undefined;
  /** Only around the record and its lines, instead of from atmosphere down. */
  closeUp?: boolean | undefined;
  /** Clock times of this zone along the foot, instead of time since the start; `atS` are then Unix seconds. */
  zone?: string | undefined;
  gapAfterS?: number | undefined;
  /** The word before the last value: "now" while it runs. */
  lastWord?: string | undefined;
};

export type LineKey = "water" | "limit" | "target";

/** The horizontal lines there are, highest pressure as given. */
export function listLines(subject: PictureSubject) {
  const lines: { key: LineKey; pressurePa: number }[] = [];
  if (subject.water) lines.push({ key: "water", pressurePa: subject.water.pressurePa });
  if (subject.limitPa !== undefined) lines.push({ key: "limit", pressurePa: subject.limitPa });
  if (subject.targetPa !== undefined) lines.push({ key: "target", pressurePa: subject.targetPa });
  return lines;
}
