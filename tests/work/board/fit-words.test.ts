import fc from "fast-check";
import { expect, test } from "vitest";
import { fitWords } from "@/lib/work/board/fit-words";

test("as many letters as have room, and no space at the end", () => {
  expect(fitWords("Elmsworth Foods", 200, 11)).toBe("Elmsworth Foods");
  expect(fitWords("Elmsworth Foods", 40, 11)).toBe("Elmsw");
  expect(fitWords("Ash Foods", 27, 11)).toBe("Ash");
  expect(fitWords("Elmsworth", 3, 11)).toBe("");
  expect(fitWords("Elmsworth", 14, 11)).toBe(""); // "El" could be anybody
  expect(fitWords("Al", 14, 11)).toBe("Al");
});

test("more room never shows less, and what is shown begins the words", () => {
  fc.assert(
    fc.property(fc.string(), fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 50 }), (words, px, more) => {
      const shown = fitWords(words, px, 11);
      expect(words.startsWith(shown)).toBe(true);
      expect(fitWords(words, px + more, 11).length).toBeGreaterThanOrEqual(shown.length);
    }),
  );
});
