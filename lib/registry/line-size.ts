import { toMetre } from "@/lib/hvac/units";
import { err, ok, type Result } from "@/lib/result";
import { parseTypedNumber } from "./fields";

export type LineSizeError = { code: "not-a-size" };

/** An outside diameter in mm from inches as tubing is named: "3/8", "1 1/8", "1-1/8", "0.375". */
export function parseInches(typed: string): Result<number, LineSizeError> {
  const text = typed.trim().replace(/["″]$|\s*in\.?$/i, "");
  const fraction = /^(?:(\d{1,2})[\s-]+)?(\d{1,2})\/(\d{1,2})$/.exec(text);
  const inches = fraction
    ? Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3])
    : orNaN(parseTypedNumber(text));
  return inches > 0 && inches <= 12 ? ok(toMetre(inches, "in") * 1000) : err({ code: "not-a-size" });
}

const orNaN = (number: Result<number, unknown>) => (number.ok ? number.value : Number.NaN);

/** The size as tubing is named, to the nearest sixteenth where it is one to 0.1 mm; else decimals. */
export function writeInches(outsideDiameterMm: number): string {
  const inches = outsideDiameterMm / toMetre(1000, "in");
  const sixteenths = Math.round(inches * 16);
  if (Math.abs(sixteenths / 16 - inches) * toMetre(1000, "in") > 0.1) return inches.toFixed(3);
  const [whole, part] = [Math.floor(sixteenths / 16), sixteenths % 16];
  if (part === 0) return String(whole);
  const shared = [8, 4, 2].find((divisor) => part % divisor === 0) ?? 1;
  const fraction = `${part / shared}/${16 / shared}`;
  return whole > 0 ? `${whole} ${fraction}` : fraction;
}

/**
 * Inside diameter in mm of refrigeration copper tube of this outside diameter: the wall of the named size, else
 * that of the nearest named size.
 * @source ASTM B280, annealed coil sizes, wall thickness (from memory; common practice to assume it)
 */
export function insideDiameterMm(outsideDiameterMm: number): number {
  const nearest = WALL_MM.reduce((best, row) =>
    Math.abs(row.outsideMm - outsideDiameterMm) < Math.abs(best.outsideMm - outsideDiameterMm) ? row : best,
  );
  return Math.max(outsideDiameterMm - 2 * nearest.wallMm, outsideDiameterMm / 2);
}

const WALL_MM = [
  { outsideMm: 6.35, wallMm: 0.76 },
  { outsideMm: 9.52, wallMm: 0.81 },
  { outsideMm: 12.7, wallMm: 0.81 },
  { outsideMm: 15.88, wallMm: 0.89 },
  { outsideMm: 19.05, wallMm: 0.89 },
  { outsideMm: 22.22, wallMm: 1.14 },
  { outsideMm: 28.58, wallMm: 1.27 },
  { outsideMm: 34.92, wallMm: 1.4 },
  { outsideMm: 41.28, wallMm: 1.52 },
  { outsideMm: 53.98, wallMm: 1.78 },
] as const;
