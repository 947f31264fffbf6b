import * as z from "zod";

const LONGEST_RECORD_S = 60 * 86_400;

/** Seconds on the record's own clock, which may start anywhere a date can. */
export const recordSecond = z.number().min(-1e11).max(1e11);

/** Adds the first thing wrong with a record's times; true where there was one. */
export function refuseTimes(
  readings: readonly { readonly s: number }[],
  context: {
    addIssue(issue: { code: "custom"; path: PropertyKey[]; message: string; params: { code: string } }): void;
  },
): boolean {
  const startS = readings[0]?.s ?? 0;
  for (let index = 1; index < readings.length; index++) {
    const { s } = readings[index]!;
    const backwards = s < readings[index - 1]!.s;
    if (!backwards && s - startS <= LONGEST_RECORD_S) continue;
    const message = backwards ? "time runs backwards" : "longer than the sixty days one record may last";
    const code = backwards ? "time-runs-backwards" : "record-too-long";
    context.addIssue({ code: "custom", path: ["readings", index, "s"], message, params: { code } });
    return true;
  }
  return false;
}
