import { callbackCauseWord, isCallbackCauseCode } from "./callback-causes";

const basisWord: Record<string, string> = {
  "same-circuit": "The same circuit",
  "same-unit": "The same unit, which circuit is not known yet or another one",
};

/** Why an earlier job is the likely origin, in a sentence. */
export function originReason(basis: string, daysBetween: number | null): string {
  const ago =
    daysBetween === null
      ? "its job is open again"
      : daysBetween === 0
        ? "closed on the same day"
        : `closed ${daysBetween} ${daysBetween === 1 ? "day" : "days"} before`;
  return `${basisWord[basis] ?? "The same unit"}; ${ago}.`;
}

/** The cause as chosen: one of the program's list, or the company's own words. */
export function causeWords(causeCode: string | null, own: { words: string } | null): string {
  if (own) return own.words;
  if (causeCode === null) return "not said";
  return isCallbackCauseCode(causeCode) ? callbackCauseWord[causeCode] : causeCode;
}

/** An amount of money; whole units where nobody counts cents. */
export function moneyWords(cents: number, currency: string): string {
  const whole = cents % 100 === 0 || Math.abs(cents) >= 100_000;
  return new Intl.NumberFormat("en-US", {
    style: "currency",
    currency,
    ...(whole && { maximumFractionDigits: 0 }),
  }).format(cents / 100);
}
