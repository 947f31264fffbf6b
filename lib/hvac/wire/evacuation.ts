import * as z from "zod";
import { ok } from "@/lib/result";
import { judgePumpOil, planDilution } from "../evacuation-plan";
import { celsiusToKelvin, micronToPa, toPa } from "../units";
import { nonNegative, positive, questionId } from "./answer";

/** Asks what a chain of pulls and nitrogen breaks leaves of the first gas. */
export const tripleEvacuationQuestion = z.strictObject({
  id: questionId,
  internalVolumeL: positive,
  temperatureC: z.number().min(-60).max(90),
  cycles: z
    .array(z.strictObject({ pullToMicron: positive.max(760_000), breakToKPaAbs: positive.max(2_000) }))
    .min(1)
    .max(20)
    .superRefine((cycles, context) => {
      for (const [index, { pullToMicron, breakToKPaAbs }] of cycles.entries())
        if (micronToPa(pullToMicron) >= toPa(breakToKPaAbs, "kPa"))
          context.addIssue({
            code: "custom",
            path: [index, "breakToKPaAbs"],
            message: "a break must be above its pull",
          });
    }),
});

export function answerTripleEvacuation(question: z.output<typeof tripleEvacuationQuestion>) {
  const cycles = question.cycles.map(({ pullToMicron, breakToKPaAbs }) => ({
    pullToPa: micronToPa(pullToMicron),
    breakToPa: toPa(breakToKPaAbs, "kPa"),
  }));
  const plan = planDilution(cycles, question.internalVolumeL / 1000, celsiusToKelvin(question.temperatureC));
  return ok({ id: question.id, ...plan });
}

/** Asks whether the pump's oil may be trusted for the next pull. */
export const pumpOilQuestion = z.strictObject({
  id: questionId,
  runningHoursSinceChange: nonNegative,
  wetOrContaminatedSinceChange: z.boolean(),
  look: z.enum(["fresh", "clear", "cloudy", "dark", "not-looked"]),
  blankOffMicron: nonNegative.nullable().default(null),
});

export function answerPumpOil(question: z.output<typeof pumpOilQuestion>) {
  const { blankOffMicron } = question;
  const { verdict, remainingS, reasons } = judgePumpOil({
    runningSinceChangeS: question.runningHoursSinceChange * 3600,
    wetOrContaminatedSinceChange: question.wetOrContaminatedSinceChange,
    look: question.look,
    blankOffPa: blankOffMicron === null ? null : micronToPa(blankOffMicron),
  });
  return ok({ id: question.id, verdict, remainingHours: remainingS / 3600, reasons });
}
