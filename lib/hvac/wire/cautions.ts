import * as z from "zod";
import { ok } from "@/lib/result";
import { cautionsFor, DEFERRAL_LINE } from "../cautions";
import { STEP_IDS } from "../log/step";
import { questionId } from "./answer";

/** Asks for the cautions of a step; a class that is not known gets them all. */
export const cautionsQuestion = z.strictObject({
  id: questionId,
  step: z.enum(STEP_IDS),
  safetyClass: z.enum(["A1", "A2L", "A2", "A3", "B1", "B2L", "B2", "B3"]).nullable().default(null),
});

export function answerCautions({ id, step, safetyClass }: z.output<typeof cautionsQuestion>) {
  const cautions = cautionsFor(step, safetyClass).map(({ text, source, mark }) => ({ text, source, mark }));
  return ok({ id, cautions, deferral: DEFERRAL_LINE });
}
