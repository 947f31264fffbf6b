import { readFileSync } from "node:fs";

export type Oklch = { l: number; c: number; h: number };
export type Mode = "light" | "dark";

/** The colour tokens of the style sheet as written there, both modes. */
export function readTokens(path: string): Map<string, Record<Mode, Oklch>> {
  const tokens = new Map<string, Record<Mode, Oklch>>();
  const colour = String.raw`oklch\(([\d.]+)% ([\d.]+) ([\d.]+)\)`;
  const line = new RegExp(String.raw`--([\w-]+): light-dark\(${colour}, ${colour}\);`, "g");
  for (const [, name, ...numbers] of readFileSync(path, "utf8").matchAll(line)) {
    const [l1, c1, h1, l2, c2, h2] = numbers.map(Number) as [number, number, number, number, number, number];
    tokens.set(name as string, { light: { l: l1 / 100, c: c1, h: h1 }, dark: { l: l2 / 100, c: c2, h: h2 } });
  }
  return tokens;
}

/**
 * Linear-light sRGB of an OKLCH colour, not clipped.
 * @source W3C CSS Color Module Level 4, section 18, OKLab to XYZ to linear sRGB sample matrices (combined form by B. Ottosson)
 */
export function linearRgb({ l, c, h }: Oklch): [number, number, number] {
  const a = c * Math.cos((h * Math.PI) / 180);
  const b = c * Math.sin((h * Math.PI) / 180);
  const long = (l + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const medium = (l - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const short = (l - 0.0894841775 * a - 1.291485548 * b) ** 3;
  return [
    4.0767416621 * long - 3.3077115913 * medium + 0.2309699292 * short,
    -1.2684380046 * long + 2.6097574011 * medium - 0.3413193965 * short,
    -0.0041960863 * long - 0.7034186147 * medium + 1.707614701 * short,
  ];
}

/** @source WCAG 2.2, "relative luminance" */
export function luminance([red, green, blue]: readonly [number, number, number]): number {
  const within = (channel: number) => Math.min(1, Math.max(0, channel));
  return 0.2126 * within(red) + 0.7152 * within(green) + 0.0722 * within(blue);
}

/** @source WCAG 2.2, "contrast ratio" */
export function contrast(one: number, other: number): number {
  return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
}

/** @source WCAG 2.2, "relative luminance", the sRGB transfer curve */
export function linearChannel(value8bit: number): number {
  const value = value8bit / 255;
  return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
}
