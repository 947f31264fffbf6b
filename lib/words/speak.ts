import { english, type Language } from "./language";

/**
 * Lays a language over the English words, in place: every component goes on importing its own subject and reads it when it draws.
 * Once, before the first screen is drawn; and never on a server, which speaks with everyone at once.
 */
export function speak(language: Language): void {
  layOver(english, language);
}

type Said = { [name: string]: unknown };

function layOver(under: Said, over: Said): void {
  for (const [name, words] of Object.entries(over)) {
    if (isSubject(under[name]) && isSubject(words)) layOver(under[name], words);
    else under[name] = words;
  }
}

function isSubject(words: unknown): words is Said {
  return typeof words === "object" && words !== null && !Array.isArray(words);
}
