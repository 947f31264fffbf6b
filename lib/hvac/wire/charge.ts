import * as z from "zod";
import { ok } from "@/lib/result";
import { judgeChargeCheck } from "../charge/charge-check";
import { judgeRoomCharge } from "../charge/flammable-charge";
import { judgeWeighedCharge, planCharge } from "../charge/line-set";
import { subcoolingK, superheatK } from "../charge/superheat";
import { ruleOfThumbSuperheatK, targetSuperheatK } from "../charge/target-superheat";
import { wetBulbK } from "../charge/wet-bulb";
import { RELEASE_HEIGHT_M } from "../rules/flammable-charge";
import { celsiusToKelvin, toPa } from "../units";
import {
  type Answer,
  atmosphericKPa,
  knownRefrigerant,
  nonNegative,
  positive,
  questionId,
  refuse,
  refuseSaturation,
} from "./answer";

/** Asks for the charge by weight; with `weighedKg`, also whether it was met. */
export const chargeQuestion = z
  .strictObject({
    id: questionId,
    factoryChargeKg: positive,
    lineRateGramPerM: nonNegative,
    lineLengthM: nonNegative,
    includedKg: nonNegative.exactOptional(),
    includedLengthM: nonNegative.exactOptional(),
    addersKg: z.array(nonNegative).max(50).default([]),
    weighedKg: z.number().exactOptional(),
    scaleToleranceKg: nonNegative.exactOptional(),
  })
  .refine((question) => (question.includedKg === undefined) !== (question.includedLengthM === undefined), {
    error: "give either includedKg or includedLengthM",
  });

export function answerCharge(question: z.output<typeof chargeQuestion>) {
  const { id, includedKg, includedLengthM, weighedKg } = question;
  const plan = planCharge(question.factoryChargeKg, {
    rateKgPerM: question.lineRateGramPerM / 1000,
    lengthM: question.lineLengthM,
    included: includedKg !== undefined ? { massKg: includedKg } : { lengthM: includedLengthM! },
    addersKg: question.addersKg,
  });
  if (!plan.ok) return refuse(plan.error.code, "", "no charge is left after the line-set adjustment");
  const { adjustmentKg, totalKg } = plan.value;
  if (weighedKg === undefined) return ok({ id, adjustmentKg, totalKg });
  return ok({ id, adjustmentKg, totalKg, ...judgeWeighedCharge(totalKg, weighedKg, question.scaleToleranceKg) });
}

const measured = {
  id: questionId,
  refrigerant: knownRefrigerant,
  atmosphericKPa,
  kPaGauge: z.number().min(-115).max(20_000),
  lineTemperatureC: z.number().min(-100).max(200),
};
const conditions = { outdoorDryBulbC: z.number().min(-60).max(70), runningMinutes: nonNegative };

/** Air entering the indoor coil: the wet bulb as read, or dry bulb and humidity it is computed from. */
const indoorAir = [
  z.strictObject({ ...conditions, indoorWetBulbC: z.number().min(-20).max(50) }),
  z.strictObject({
    ...conditions,
    indoorDryBulbC: z.number().min(-20).max(60),
    indoorHumidityPercent: z.number().min(0).max(100),
  }),
] as const;

/** Asks for superheat; with a target, or the air it follows from on a fixed orifice, also whether it is met. */
export const superheatQuestion = z.strictObject({
  ...measured,
  check: z.union([z.strictObject({ ...conditions, targetK: z.number() }), ...indoorAir]).exactOptional(),
});

export function answerSuperheat(question: z.output<typeof superheatQuestion>): Answer<object> {
  const { id, check } = question;
  const superheat = superheatK(question.refrigerant, absolutePa(question), celsiusToKelvin(question.lineTemperatureC));
  if (!superheat.ok) return refuseSaturation(superheat.error, "kPaGauge");
  if (check === undefined) return ok({ id, superheatK: superheat.value });
  const outdoorDryBulbK = celsiusToKelvin(check.outdoorDryBulbC);
  const barometerPa = toPa(question.atmosphericKPa, "kPa");
  let targetK: number;
  let ruleOfThumbK: number | undefined;
  if ("targetK" in check) {
    targetK = check.targetK;
  } else {
    const indoorWetBulbK =
      "indoorWetBulbC" in check
        ? celsiusToKelvin(check.indoorWetBulbC)
        : wetBulbK(celsiusToKelvin(check.indoorDryBulbC), check.indoorHumidityPercent / 100, barometerPa);
    const target = targetSuperheatK(indoorWetBulbK, outdoorDryBulbK);
    if (!target.ok)
      return target.error.code === "outside-table"
        ? refuse("outside-table", "check", "the table holds for 50 to 76 F wet bulb indoors and 40 to 115 F outdoors")
        : refuse(target.error.code, "check", "under these conditions the charge is not set by superheat");
    targetK = target.value;
    ruleOfThumbK = ruleOfThumbSuperheatK(indoorWetBulbK, outdoorDryBulbK);
  }
  const runningS = check.runningMinutes * 60;
  const judged = judgeChargeCheck({
    method: "superheat",
    measuredK: superheat.value,
    targetK,
    outdoorDryBulbK,
    runningS,
  });
  return ok({
    id,
    superheatK: superheat.value,
    targetK,
    ...(ruleOfThumbK !== undefined && { ruleOfThumbK }),
    ...judged,
  });
}

/** Asks for subcooling; with a target, also whether it is met. */
export const subcoolingQuestion = z.strictObject({
  ...measured,
  check: z.strictObject({ ...conditions, targetK: z.number() }).exactOptional(),
});

export function answerSubcooling(question: z.output<typeof subcoolingQuestion>): Answer<object> {
  const { id, check } = question;
  const subcooling = subcoolingK(
    question.refrigerant,
    absolutePa(question),
    celsiusToKelvin(question.lineTemperatureC),
  );
  if (!subcooling.ok) return refuseSaturation(subcooling.error, "kPaGauge");
  if (check === undefined) return ok({ id, subcoolingK: subcooling.value });
  const judged = judgeChargeCheck({
    method: "subcooling",
    measuredK: subcooling.value,
    targetK: check.targetK,
    outdoorDryBulbK: celsiusToKelvin(check.outdoorDryBulbC),
    runningS: check.runningMinutes * 60,
  });
  return ok({ id, subcoolingK: subcooling.value, targetK: check.targetK, ...judged });
}

function absolutePa(question: { readonly kPaGauge: number; readonly atmosphericKPa: number }): number {
  return toPa(question.kPaGauge + question.atmosphericKPa, "kPa");
}

/** Asks whether a flammable charge fits its room. */
export const roomChargeQuestion = z
  .strictObject({
    id: questionId,
    refrigerant: knownRefrigerant,
    chargeKg: positive,
    roomAreaM2: positive,
    place: z.enum(["floor", "window", "wall", "ceiling"]).exactOptional(),
    releaseHeightM: positive.exactOptional(),
    edition: z.enum(["iec-60335-2-40-older", "iec-60335-2-40-2018", "ul-60335-2-40-4th"]),
  })
  .refine((question) => (question.place === undefined) !== (question.releaseHeightM === undefined), {
    error: "give either place or releaseHeightM",
  });

export function answerRoomCharge(question: z.output<typeof roomChargeQuestion>): Answer<object> {
  const { id, refrigerant, chargeKg, roomAreaM2, place, releaseHeightM, edition } = question;
  const limit = refrigerant.lowerFlammableLimit;
  if (limit === null) return refuse("not-flammable", "refrigerant", `${refrigerant.name} has no lower flammable limit`);
  const judged = judgeRoomCharge(chargeKg, {
    lowerFlammableLimitKgPerM3: limit.kgPerM3,
    mildlyFlammable: refrigerant.safetyClass.endsWith("2L"),
    releaseHeightM: place === undefined ? releaseHeightM! : RELEASE_HEIGHT_M[place],
    roomAreaM2,
    edition,
  });
  return ok({ id, ...judged });
}
