import { err, ok, type Result } from "@/lib/result";

/*
 * Gauge samples packed for disk, wire and database. Raw values are kept as received: a decimal number in its own unit,
 * stored as a whole number of 10^-decimals, so that nothing is rounded. Layout: one byte form, the header as JSON with its
 * length before it, then per sample the step in time, in value and (where the trace has one) in temperature, each against
 * the sample before, as zigzag base-128 numbers. One sample a second of a slowly rising gauge takes four to five bytes.
 */

export const MAX_SAMPLES_PER_CHUNK = 4096;
const FORM = 1;
const MAX_DECIMALS = 6;

export type TraceUnit = "micron" | "Pa" | "mbar" | "Torr" | "kPa" | "psi" | "bar";
const UNITS: readonly string[] = ["micron", "Pa", "mbar", "Torr", "kPa", "psi", "bar"] satisfies TraceUnit[];

export interface TraceSample {
  /** Wall clock of the device, whole milliseconds since 1970. */
  readonly atMs: number;
  /** The number the instrument gave, in the chunk's unit. */
  readonly value: number;
  readonly temperatureC?: number;
}

export interface TraceChunk {
  readonly unit: TraceUnit;
  readonly samples: readonly TraceSample[];
}

export type PackError =
  | { code: "no-samples" | "too-many-samples" | "mixed-temperature" }
  | { code: "not-packable"; index: number; field: "atMs" | "value" | "temperatureC" };

export type UnpackError = { code: "not-a-chunk"; at: number };

/** The bytes of one chunk; equal chunks give equal bytes. Fails for a number that six decimals do not hold exactly. */
export function packChunk(chunk: TraceChunk): Result<Uint8Array, PackError> {
  const { unit, samples } = chunk;
  const first = samples[0];
  if (!first) return err({ code: "no-samples" });
  if (samples.length > MAX_SAMPLES_PER_CHUNK) return err({ code: "too-many-samples" });
  const hasTemperature = first.temperatureC !== undefined;
  let valueDecimals = 0;
  let temperatureDecimals = 0;
  for (const [index, sample] of samples.entries()) {
    if ((sample.temperatureC !== undefined) !== hasTemperature) return err({ code: "mixed-temperature" });
    if (!Number.isSafeInteger(sample.atMs)) return err({ code: "not-packable", index, field: "atMs" });
    const ofValue = decimalsOf(sample.value);
    if (ofValue === null) return err({ code: "not-packable", index, field: "value" });
    valueDecimals = Math.max(valueDecimals, ofValue);
    if (sample.temperatureC === undefined) continue;
    const ofTemperature = decimalsOf(sample.temperatureC);
    if (ofTemperature === null) return err({ code: "not-packable", index, field: "temperatureC" });
    temperatureDecimals = Math.max(temperatureDecimals, ofTemperature);
  }
  const bytes: number[] = [FORM];
  const header = JSON.stringify([unit, samples.length, valueDecimals, hasTemperature ? temperatureDecimals : -1]);
  bytes.push(header.length, ...Array.from(header, (letter) => letter.charCodeAt(0)));
  let [atMs, value, temperature] = [0, 0, 0];
  for (const sample of samples) {
    pushSigned(bytes, sample.atMs - atMs);
    atMs = sample.atMs;
    const wholeValue = Math.round(sample.value * 10 ** valueDecimals);
    pushSigned(bytes, wholeValue - value);
    value = wholeValue;
    if (sample.temperatureC === undefined) continue;
    const wholeTemperature = Math.round(sample.temperatureC * 10 ** temperatureDecimals);
    pushSigned(bytes, wholeTemperature - temperature);
    temperature = wholeTemperature;
  }
  return ok(Uint8Array.from(bytes));
}

/** The samples of a chunk, exactly as packed; refuses anything else by the byte where it stopped making sense. */
export function unpackChunk(bytes: Uint8Array): Result<TraceChunk, UnpackError> {
  const samples: TraceSample[] = [];
  const read = readChunk(bytes, (atMs, value, temperatureC) => {
    samples.push(Number.isNaN(temperatureC) ? { atMs, value } : { atMs, value, temperatureC });
  });
  return read.ok ? ok({ unit: read.value.unit, samples }) : read;
}

/** How many samples a chunk holds, read to its end as `unpackChunk` does but kept nowhere. */
export function countSamples(bytes: Uint8Array): Result<number, UnpackError> {
  const read = readChunk(bytes, () => {});
  return read.ok ? ok(read.value.count) : read;
}

/** Hands over each sample in turn, the temperature NaN where the trace has none. */
function readChunk(
  bytes: Uint8Array,
  take: (atMs: number, value: number, temperatureC: number) => void,
): Result<{ unit: TraceUnit; count: number }, UnpackError> {
  const headerEnd = 2 + (bytes[1] ?? 0);
  if (bytes[0] !== FORM || headerEnd > bytes.length) return err({ code: "not-a-chunk", at: 0 });
  const header = readHeader(String.fromCharCode(...bytes.subarray(2, headerEnd)));
  if (!header) return err({ code: "not-a-chunk", at: 2 });
  const cursor = { bytes, at: headerEnd };
  const hasTemperature = header.temperatureDecimals >= 0;
  const [valueScale, temperatureScale] = [10 ** header.valueDecimals, 10 ** header.temperatureDecimals];
  let [atMs, wholeValue, wholeTemperature] = [0, 0, 0];
  for (let index = 0; index < header.count; index++) {
    atMs += pullSigned(cursor);
    wholeValue += pullSigned(cursor);
    if (hasTemperature) wholeTemperature += pullSigned(cursor);
    if (!Number.isSafeInteger(atMs) || !Number.isSafeInteger(wholeValue) || !Number.isSafeInteger(wholeTemperature)) {
      return err({ code: "not-a-chunk", at: cursor.at });
    }
    take(atMs, wholeValue / valueScale, hasTemperature ? wholeTemperature / temperatureScale : Number.NaN);
  }
  if (cursor.at !== bytes.length) return err({ code: "not-a-chunk", at: cursor.at });
  return ok({ unit: header.unit, count: header.count });
}

function readHeader(text: string) {
  let parts: unknown;
  try {
    parts = JSON.parse(text);
  } catch {
    return null;
  }
  if (!Array.isArray(parts) || parts.length !== 4) return null;
  const [unit, count, valueDecimals, temperatureDecimals] = parts as unknown[];
  const whole = (n: unknown, lo: number, hi: number): n is number =>
    Number.isInteger(n) && Number(n) >= lo && Number(n) <= hi;
  if (typeof unit !== "string" || !UNITS.includes(unit) || !whole(count, 1, MAX_SAMPLES_PER_CHUNK)) return null;
  if (!whole(valueDecimals, 0, MAX_DECIMALS) || !whole(temperatureDecimals, -1, MAX_DECIMALS)) return null;
  return { unit: unit as TraceUnit, count, valueDecimals, temperatureDecimals };
}

/** How many decimals hold the number exactly; null when six do not, or it is no number a gauge can give. */
function decimalsOf(value: number): number | null {
  for (let decimals = 0; decimals <= MAX_DECIMALS; decimals++) {
    const whole = Math.round(value * 10 ** decimals);
    if (whole / 10 ** decimals === value && Number.isSafeInteger(whole)) return decimals;
  }
  return null;
}

function pushSigned(bytes: number[], step: number): void {
  let rest = step < 0 ? -step * 2 - 1 : step * 2;
  while (rest >= 128) {
    bytes.push((rest % 128) + 128);
    rest = Math.floor(rest / 128);
  }
  bytes.push(rest);
}

/** NaN past the end or for a number too long to be one of ours; the caller's safe-integer check catches it. */
function pullSigned(cursor: { bytes: Uint8Array; at: number }): number {
  const only = cursor.bytes[cursor.at];
  if (only !== undefined && only < 128) {
    cursor.at += 1; // nearly every step is one byte long
    return only % 2 === 0 ? only >> 1 : -((only + 1) >> 1);
  }
  let [rest, scale] = [0, 1];
  for (let length = 0; length < 8; length++) {
    const byte = cursor.bytes[cursor.at++];
    if (byte === undefined) return Number.NaN;
    rest += (byte % 128) * scale;
    if (byte < 128) return rest % 2 === 0 ? rest / 2 : -(rest + 1) / 2;
    scale *= 128;
  }
  return Number.NaN;
}
