import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { acceptTyped, judgePlausible, type PadKey, padNumber, pressKey } from "@/components/ui/number-pad-value";

const keys: readonly PadKey[] = [..."0123456789", "decimal", "minus", "back"] as PadKey[];
const typed = (sequence: readonly PadKey[], allows = { decimals: 2, negative: true }) =>
  sequence.reduce((text, key) => pressKey(text, key, allows), "");

describe("keys of the pad", () => {
  test("digits follow each other, and a leading zero gives way", () => {
    expect(typed(["0", "6", "1", "2"])).toBe("612");
  });

  test("the decimal key starts with a zero and works once", () => {
    expect(typed(["decimal", "5", "decimal"])).toBe("0.5");
  });

  test("a pad without decimals or sign ignores those keys", () => {
    expect(typed(["minus", "1", "decimal", "2"], { decimals: 0, negative: false })).toBe("12");
  });

  test("digits beyond the decimals asked for are not taken", () => {
    expect(typed(["1", "decimal", "2", "3", "4"])).toBe("1.23");
  });

  test("the sign key turns the sign over", () => {
    expect(typed(["4", "minus"])).toBe("-4");
    expect(typed(["4", "minus", "minus"])).toBe("4");
  });

  test("clear empties the line", () => {
    expect(pressKey("12.5", "clear", { decimals: 1, negative: false })).toBe("");
  });

  test("whatever is pressed, the text is empty, a start of a number or a finite number within the decimals", () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...keys), { maxLength: 40 }),
        fc.integer({ min: 0, max: 3 }),
        (sequence, decimals) => {
          const text = typed(sequence, { decimals, negative: true });
          expect(text).toMatch(new RegExp(`^-?(\\d{0,9}(\\.\\d{0,${decimals}})?)?$`));
          const value = padNumber(text);
          expect(value === undefined || Number.isFinite(value)).toBe(true);
        },
      ),
    );
  });
});

describe("typed and pasted text", () => {
  test("a comma is the decimal point", () => {
    expect(acceptTyped("21,5", { decimals: 1, negative: false })).toBe("21.5");
  });

  test.each(["1,200", "12 micron", "--3", "1.2.3", "1e5", "NaN", "Infinity"])("%s is not taken", (text) => {
    expect(acceptTyped(text, { decimals: 3, negative: true })).toBeUndefined();
  });

  test("a minus is taken only where one can be meant", () => {
    expect(acceptTyped("-5", { decimals: 0, negative: true })).toBe("-5");
    expect(acceptTyped("-5", { decimals: 0, negative: false })).toBeUndefined();
  });

  test.each(["", "-", "."])("%j is no number yet", (text) => {
    expect(padNumber(text)).toBeUndefined();
  });
});

test("the plausible range includes its ends", () => {
  const range = { low: 50, high: 20_000 };
  expect([49.9, 50, 20_000, 20_001].map((value) => judgePlausible(value, range))).toEqual([
    "low",
    "plausible",
    "plausible",
    "high",
  ]);
});
