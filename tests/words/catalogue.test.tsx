import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { renderToStaticMarkup } from "react-dom/server";
import { afterAll, describe, expect, test } from "vitest";
import { NobodyHere } from "@/app/(tablet)/_tablet/nobody-here";
import { StateMark, stateWord } from "@/components/ui/state-mark";
import { makeSafeWords } from "@/lib/words/en/make-safe";
import { timeWords } from "@/lib/words/en/time";
import { english, type Language } from "@/lib/words/language";
import { speak } from "@/lib/words/speak";
import { findEarlyWords, findInlineWords } from "./inline-words";
import { bracketed, copyOf } from "./pseudo-language";
import { listSaidFiles } from "./said-files";

const CAUGHT = [
  ["words between tags", "<p>Close the valve</p>", "Close the valve"],
  ["one small word", "<p>{isOpen && <b>now</b>}</p>", "now"],
  ["a heading", '<Section title="Electrical" />', '"Electrical"'],
  ["a name only heard", '<nav aria-label="steps" />', '"steps"'],
  ["one of two words", '<p>{isOpen ? "open" : closed}</p>', '"open"'],
  ["the word of a choice", 'const options = [{ value: "a", label: "tight" }];', '"tight"'],
  ["a sentence in a variable", 'const lead = "It is written down.";', '"It is written down."'],
  ["a sentence around a value", `const lead = \`in \${minutes} min of \${all}\`;`, `\`in \${minutes} min of \${all}\``],
  ["a count made plural", `const lead = count === 1 ? one : \`\${count} things\`;`, `\`\${count} things\``],
  ["a joined list", '[isOther && "by someone else"].join(" · ")', '"by someone else"'],
] as const;

const LET_PASS = [
  ["a word of the catalogue", "<p title={holdWords.wet}>{holdWords.next(action)}</p>"],
  ["a value with its unit", "<p>{minutes} min · {loss} kPa</p>"],
  ["style classes", '<p className="grid gap-2">{classNames("text-small", isOpen && "font-semibold underline")}</p>'],
  ["an address", `const address = \`/api/\${company}/jobs/\${job}/log\`;`],
  ["a code", 'const kept = { at: "evidence.gauge", kind: "step-recorded", how: "signed-here" };'],
  ["a key of the keyboard", 'if (event.key !== "Enter") stop();'],
  ["a fault for a developer", 'throw new Error("no form around this field");'],
] as const;

/** What is found in each source when it stands in a component. */
function plant(sources: readonly string[]): ReadonlyMap<string, readonly string[]> {
  const folder = mkdtempSync(join(tmpdir(), "dryhold-planted-"));
  const paths = sources.map((source, index) => {
    const path = join(folder, `planted-${index}.tsx`);
    writeFileSync(path, source);
    return path;
  });
  try {
    const found = findInlineWords(paths);
    return new Map(
      sources.map((source, index) => [
        source,
        found.filter(({ file }) => file === paths[index]).map(({ text }) => text),
      ]),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe("every word on the tablet comes from the catalogue", () => {
  test("none stands in the source of what is drawn there", () => {
    const files = listSaidFiles();
    expect(files.length).toBeGreaterThan(120);
    expect(findInlineWords(files).map(({ file, line, text }) => `${file}:${line} ${text}`)).toEqual([]);
  });

  test("none is read before it is drawn, but records that stay the same objects", () => {
    const early = new Set(findEarlyWords(listSaidFiles()).map(({ text }) => text));
    expect([...early]).toEqual(["frameWords.tablet", "controlsWords.state"]); // the first is the page's title, the server's own
  });

  const planted = plant([...CAUGHT, ...LET_PASS].map(([, source]) => source));

  test.each(CAUGHT)("%s is caught", (_, source, text) => {
    expect(planted.get(source)).toEqual([text]);
  });

  test.each(LET_PASS)("%s is no inline word", (_, source) => {
    expect(planted.get(source)).toEqual([]);
  });
});

describe("a second language", () => {
  const kept = copyOf(english);
  afterAll(() => speak(kept));

  test("says every word and every sentence, or it does not compile", () => {
    const complete: Language = bracketed(english);
    const { dryNitrogen: _word, ...lackingWord } = complete.fields;
    // @ts-expect-error a word is missing
    const fields: Language["fields"] = lackingWord;
    const { hold: _subject, ...lackingSubject } = complete;
    // @ts-expect-error a subject is missing
    const language: Language = lackingSubject;
    // @ts-expect-error a sentence needs a value that is not given to it
    const goTo: Language["job"]["goTo"] = (step: string, why: string) => `${step} ${why}`;
    expect([fields, language, goTo]).toHaveLength(3);
  });

  test("is heard wherever a component speaks, once it is laid over English", () => {
    speak(bracketed(english));
    expect(timeWords.in("12 min")).toBe("[ïn 12 mïn]");
    expect(makeSafeWords.toolsInDate(1)).toBe("[Yöür tööl ïs ïn dàtè]");
    expect(stateWord.proven).toBe("[Prövèn]");
    const drawn = renderToStaticMarkup(
      <>
        <NobodyHere because="no-disk" here="/t/fernhollow" />
        <NobodyHere because="forbidden" here="/t/fernhollow" />
        <StateMark state="needs-you" />
      </>,
    );
    expect(drawn).toContain("[Thïs bröwsèr kèèps nöthïng för thè tàblèt, sö nö wörk cöüld bè sàvèd hèrè.]");
    const unbracketed = drawn
      .replace(/<[^>]*>/g, " ")
      .replace(/\[[^\]]*\]/g, "")
      .replaceAll("Dryhold", "");
    expect(unbracketed.trim()).toBe("");
  });

  test("and English again", () => {
    speak(kept);
    expect(timeWords.in("12 min")).toBe("in 12 min");
    expect(stateWord.proven).toBe("Proven");
  });
});
