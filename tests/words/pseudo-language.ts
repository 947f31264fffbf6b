const ACCENTED: Readonly<Record<string, string>> = { a: "à", e: "è", i: "ï", o: "ö", u: "ü" };

/** A language nobody speaks: each word of the given one in brackets, with accents, its sentences with the same values. */
export function bracketed<T>(words: T): T {
  return mapWords(words, (text) => `[${text.replace(/[aeiou]/g, (letter) => ACCENTED[letter] ?? letter)}]`) as T;
}

export function copyOf<T>(words: T): T {
  return mapWords(words, (text) => text) as T;
}

function mapWords(words: unknown, say: (text: string) => string): unknown {
  if (typeof words === "string") return say(words);
  if (typeof words === "function") return (...values: unknown[]) => mapParts(words(...values), say);
  if (Array.isArray(words)) return mapParts(words, say);
  if (typeof words !== "object" || words === null) return words;
  return Object.fromEntries(Object.entries(words).map(([name, inner]) => [name, mapWords(inner, say)]));
}

/** A sentence, or its parts: what is not words among them is someone's value. */
function mapParts(said: unknown, say: (text: string) => string): unknown {
  if (Array.isArray(said)) return said.map((part) => mapParts(part, say));
  return typeof said === "string" ? say(said) : said;
}
