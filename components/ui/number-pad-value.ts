export type PadKey = "0" | "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "decimal" | "minus" | "back" | "clear";

/**
 * The text on the pad after one key. Text, not a number, so that "0." and "-" can stand while being typed.
 * A key that would make no number changes nothing.
 */
export function pressKey(text: string, key: PadKey, allows: { decimals: number; negative: boolean }): string {
  switch (key) {
    case "clear":
      return "";
    case "back":
      return text.slice(0, -1);
    case "minus":
      if (!allows.negative) return text;
      return text.startsWith("-") ? text.slice(1) : `-${text}`;
    case "decimal":
      if (allows.decimals === 0 || text.includes(".")) return text;
      return text === "" || text === "-" ? `${text}0.` : `${text}.`;
    default:
      return appendDigit(text, key, allows.decimals);
  }
}

function appendDigit(text: string, digit: string, decimals: number): string {
  const point = text.indexOf(".");
  if (point >= 0 && text.length - point - 1 >= decimals) return text;
  if (text.replace(/\D/g, "").length >= 9) return text;
  if (text === "0") return digit;
  if (text === "-0") return `-${digit}`;
  return text + digit;
}

/**
 * What was typed or pasted, held to what the pad allows, or undefined. A comma is the decimal point, except before
 * three digits: "1,200" may be twelve hundred, and is not guessed at.
 */
export function acceptTyped(typed: string, allows: { decimals: number; negative: boolean }): string | undefined {
  if (/,\d{3}$/.test(typed.trim())) return undefined;
  const text = typed.trim().replace(",", ".");
  const pattern = new RegExp(
    `^${allows.negative ? "-?" : ""}\\d{0,9}${allows.decimals > 0 ? `(\\.\\d{0,${allows.decimals}})?` : ""}$`,
  );
  return pattern.test(text) ? text : undefined;
}

/** The number the text stands for, or undefined while it stands for none ("", "-", "."). */
export function padNumber(text: string): number | undefined {
  return /\d/.test(text) ? Number(text) : undefined;
}

export type Plausible = { low: number; high: number };

/** Which side of the plausible range a value is on. A warning, never a refusal: instruments surprise. */
export function judgePlausible(value: number, range: Plausible): "plausible" | "low" | "high" {
  if (value < range.low) return "low";
  return value > range.high ? "high" : "plausible";
}
