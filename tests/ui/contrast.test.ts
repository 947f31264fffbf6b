import { describe, expect, test } from "vitest";
import { contrast, linearChannel, linearRgb, luminance, type Mode, readTokens } from "./css-colour";

const tokens = readTokens("app/globals.css");
const modes: readonly Mode[] = ["light", "dark"];
const states = ["proven", "working", "waiting", "needs-you", "refused", "cannot-say"];
const grounds = ["ground", "raised", "sunk"];

function ratio(one: string, other: string, mode: Mode): number {
  const of = (name: string) => {
    const token = tokens.get(name);
    if (!token) throw new Error(`no token --${name} in app/globals.css`);
    return luminance(linearRgb(token[mode]));
  };
  return contrast(of(one), of(other));
}

describe("the arithmetic agrees with what is printed elsewhere", () => {
  test("black on white is 21:1 (WCAG 2.2, contrast ratio, range)", () => {
    expect(contrast(luminance([0, 0, 0]), luminance([1, 1, 1]))).toBeCloseTo(21, 10);
  });

  test("#767676 on white is 4.54:1, the last grey to pass for text (common practice, from memory)", () => {
    const grey = linearChannel(0x76);
    expect(contrast(luminance([grey, grey, grey]), 1)).toBeCloseTo(4.54, 2);
  });

  test("oklch(62.796% 0.25768 29.234) is sRGB red (CSS Color 4, from memory)", () => {
    const [red, green, blue] = linearRgb({ l: 0.62796, c: 0.25768, h: 29.234 });
    expect(red).toBeCloseTo(1, 3);
    expect(green).toBeCloseTo(0, 3);
    expect(blue).toBeCloseTo(0, 3);
  });
});

test("every colour of the sheet is declared for both modes and read by this test", () => {
  expect(tokens.size).toBe(25);
});

describe.each(modes)("%s mode", (mode) => {
  test.each([...tokens.keys()])("--%s can be shown by an sRGB screen without clipping", (name) => {
    for (const channel of linearRgb((tokens.get(name) as Record<Mode, never>)[mode])) {
      expect(channel).toBeGreaterThanOrEqual(-0.002);
      expect(channel).toBeLessThanOrEqual(1.002);
    }
  });

  test.each(grounds)("ink on %s is 7:1 or better (WCAG 2.2, 1.4.6), soft ink 4.5:1 (1.4.3)", (ground) => {
    expect(ratio("ink", ground, mode)).toBeGreaterThanOrEqual(7);
    expect(ratio("ink-soft", ground, mode)).toBeGreaterThanOrEqual(4.5);
  });

  test.each(states)("%s is readable as a word on every ground and on its own wash (1.4.3)", (state) => {
    for (const ground of [...grounds, `${state}-wash`]) expect(ratio(state, ground, mode)).toBeGreaterThanOrEqual(4.5);
    expect(ratio("ink", `${state}-wash`, mode)).toBeGreaterThanOrEqual(7);
  });

  test("the action colour is readable as text, and so are words on it (1.4.3)", () => {
    for (const ground of grounds) expect(ratio("action", ground, mode)).toBeGreaterThanOrEqual(4.5);
    expect(ratio("on-action", "action", mode)).toBeGreaterThanOrEqual(4.5);
    expect(ratio("on-action", "action-strong", mode)).toBeGreaterThanOrEqual(4.5);
  });

  test.each(grounds)("edges of controls and the focus ring stand out from %s at 3:1 (1.4.11)", (ground) => {
    expect(ratio("edge", ground, mode)).toBeGreaterThanOrEqual(3);
    expect(ratio("focus", ground, mode)).toBeGreaterThanOrEqual(3);
  });

  test.each(["hose-low", "hose-high"])("%s stands out from the ground it is drawn on at 3:1 (1.4.11)", (hose) => {
    for (const ground of grounds) expect(ratio(hose, ground, mode)).toBeGreaterThanOrEqual(3);
  });
});
