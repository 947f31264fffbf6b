import { fromPa, STANDARD_ATMOSPHERE_PA, toPa } from "@/lib/hvac";

export type PictureUnit = "micron" | "Pa" | "mbar";
export type Tick = { at: number; words: string | null };
export type Span = { fromS: number; toS: number };

const USUAL_FLOOR_PA = toPa(50, "micron");
const LOWEST_FLOOR_PA = toPa(1, "micron");

/** The pressures the axis runs over: atmosphere to 50 micron, deeper where the record goes deeper. */
export function usualPressureSpanPa(lowestPa: number | undefined): [low: number, high: number] {
  const goesDeeper = lowestPa !== undefined && lowestPa < USUAL_FLOOR_PA;
  const floorPa = goesDeeper ? Math.max(LOWEST_FLOOR_PA, lowestPa * 0.8) : USUAL_FLOOR_PA;
  return [floorPa, STANDARD_ATMOSPHERE_PA * 1.08];
}

/** A closer look at a hold: just around what must be seen, never less than a factor of four from foot to head. */
export function closePressureSpanPa(pressuresPa: readonly number[]): [low: number, high: number] {
  const drawable = pressuresPa.filter((pressure) => pressure > 0 && Number.isFinite(pressure));
  if (drawable.length === 0) return usualPressureSpanPa(undefined);
  let low = Math.max(LOWEST_FLOOR_PA, Math.min(...drawable) / 1.25);
  let high = Math.max(...drawable) * 1.25;
  if (high / low < 4) {
    const middle = Math.sqrt(high * low);
    low = middle / 2;
    high = middle * 2;
  }
  return [low, Math.max(high, low * 4)];
}

/** Pixel height of a pressure, higher pressure higher up; what lies outside the span is drawn at its edge. */
export function pressureScale(spanPa: readonly [number, number], bottomPx: number, topPx: number) {
  const [foot, head] = [Math.log(spanPa[0]), Math.log(spanPa[1])];
  return (pressurePa: number) => place((Math.log(pressurePa) - foot) / (head - foot), bottomPx, topPx);
}

/** Pixel place of a moment; what lies outside the span is drawn at its edge. */
export function timeScale(span: Span, leftPx: number, rightPx: number) {
  const lengthS = span.toS - span.fromS;
  return (atS: number) => place(lengthS === 0 ? 0.5 : (atS - span.fromS) / lengthS, leftPx, rightPx);
}

function place(fraction: number, fromPx: number, toPx: number): number {
  const within = Math.min(1, Math.max(0, fraction));
  return tenth(fromPx * (1 - within) + toPx * within);
}

/** Tenths of a pixel: finer is unseen, and the last digits of a logarithm differ between machines. */
function tenth(px: number): number {
  return Math.round(px * 10) / 10;
}

/**
 * Ticks of the pressure axis in the person's unit: words at each power of ten (1, 2, 5 where few), at the foot and at
 * one atmosphere; short strokes between.
 */
export function listPressureTicks(spanPa: readonly [number, number], unit: PictureUnit): Tick[] {
  const [low, high] = [fromPa(spanPa[0], unit), fromPa(spanPa[1], unit)];
  const few = high / low < 60;
  const ticks: Tick[] = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power += 1) {
    for (let digit = 1; digit <= 9; digit += 1) {
      const value = digit * 10 ** power;
      if (value < low * 0.9999 || value > high) continue; // a foot of exactly 50 must not be lost to rounding
      const named = digit === 1 || (few && (digit === 2 || digit === 5)) || (ticks.length === 0 && value < low * 1.01);
      ticks.push({ at: toPa(value, unit), words: named ? numberWords(value) : null });
    }
  }
  if (!few && spanPa[1] >= STANDARD_ATMOSPHERE_PA) {
    for (const tick of ticks) if (tick.at > STANDARD_ATMOSPHERE_PA / 1.6) tick.words = null; // room for the atmosphere's own
    ticks.push({ at: STANDARD_ATMOSPHERE_PA, words: numberWords(fromPa(STANDARD_ATMOSPHERE_PA, unit)) });
  }
  return ticks;
}

const STEPS_S = [10, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400] as const;

/** Ticks along time at round steps, about `most` of them: by the clock of `zone`, or counted from `originS`. */
export function listTimeTicks(span: Span, most: number, by: { zone: string } | { originS: number }): Tick[] {
  const lengthS = span.toS - span.fromS;
  const stepS = STEPS_S.find((step) => lengthS / step <= most) ?? Math.ceil(lengthS / most / 86_400) * 86_400;
  const originS = "zone" in by ? 0 : by.originS;
  const ticks: Tick[] = [];
  for (let at = originS + Math.ceil((span.fromS - originS) / stepS) * stepS; at <= span.toS; at += stepS) {
    ticks.push({ at, words: "zone" in by ? clockWords(at, by.zone, stepS < 60) : elapsedWords(at - originS) });
  }
  return ticks;
}

/** "14:32" on the clock of the zone. */
export function clockWords(atS: number, zone: string, withSeconds = false): string {
  return new Intl.DateTimeFormat("en-GB", {
    hour: "2-digit",
    minute: "2-digit",
    ...(withSeconds && { second: "2-digit" as const }),
    timeZone: zone,
  }).format(atS * 1000);
}

/** "40 s", "10 min", "1 h 30 min". */
export function elapsedWords(durationS: number): string {
  const seconds = Math.round(Math.abs(durationS));
  const sign = durationS < 0 && seconds > 0 ? "−" : "";
  if (seconds === 0) return "0 min";
  if (seconds < 60) return `${sign}${seconds} s`;
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor((seconds % 3600) / 60);
  const rest = seconds % 60;
  const parts = [hours && `${hours} h`, minutes && `${minutes} min`, !hours && rest && `${rest} s`];
  return sign + parts.filter(Boolean).join(" ");
}

/** The number alone, as finely as the unit is read: whole microns, three figures otherwise. */
export function pressureNumber(pressurePa: number, unit: PictureUnit): string {
  const value = fromPa(pressurePa, unit);
  if (unit === "micron") return numberWords(value >= 10 ? Math.round(value) : Math.round(value * 10) / 10);
  const decimals = value >= 100 ? 0 : value >= 10 ? 1 : value >= 1 ? 2 : 3;
  return value.toLocaleString("en-US", { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
}

/** "612 micron". */
export function pressureWords(pressurePa: number, unit: PictureUnit): string {
  return `${pressureNumber(pressurePa, unit)} ${unit}`;
}

function numberWords(value: number): string {
  return value.toLocaleString("en-US", { maximumFractionDigits: value >= 100 ? 0 : 3 });
}
