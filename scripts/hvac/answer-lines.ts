import { once } from "node:events";
import type { Readable, Writable } from "node:stream";
import { splitLines } from "./split-lines";

/** Answers one question that was already read from JSON; throws only for a bug. */
export type AnswerLine = (question: unknown) => LineAnswer;
export type LineAnswer =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly error: LineError };

export interface LineError {
  readonly code: string;
  readonly path: string;
  readonly message: string;
}

const WRITE_FROM_CHARACTERS = 1 << 16;

/**
 * Answers a stream of questions, one JSON object a line, in order; memory does not grow with the number of lines.
 *
 * @returns how many lines could not be answered
 */
export async function answerLines(input: Readable, output: Writable, answer: AnswerLine): Promise<number> {
  let refused = 0;
  let waiting = "";
  const send = async () => {
    const text = waiting;
    waiting = "";
    if (text !== "" && !output.write(text)) await once(output, "drain");
  };
  for await (const lines of splitLines(input)) {
    for (const { number, text } of lines) {
      const { id, ...outcome } = answerOne(text, answer);
      if (!outcome.ok) refused++;
      waiting += `${JSON.stringify(outcome.ok ? outcome.value : { id, line: number, error: outcome.error })}\n`;
      if (waiting.length > WRITE_FROM_CHARACTERS) await send();
    }
    await send(); // a slow asker sees each answer as soon as it is there
  }
  return refused;
}

function answerOne(text: string | null, answer: AnswerLine): LineAnswer & { readonly id: string | number | null } {
  if (text === null)
    return { id: null, ok: false, error: { code: "line-unreadable", path: "", message: "too long, or not UTF-8" } };
  let question: unknown;
  try {
    question = JSON.parse(text);
  } catch (error) {
    return { id: null, ok: false, error: { code: "not-json", path: "", message: (error as Error).message } };
  }
  const id = idOf(question);
  try {
    return { id, ...answer(question) };
  } catch (error) {
    console.error(error); // a bug: told here in full, told to the asker as such, and the next line is still answered
    return { id, ok: false, error: { code: "internal", path: "", message: "this line could not be answered" } };
  }
}

function idOf(question: unknown): string | number | null {
  if (typeof question !== "object" || question === null || !("id" in question)) return null;
  const { id } = question;
  return typeof id === "string" || typeof id === "number" ? id : null;
}
