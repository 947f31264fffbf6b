import * as z from "zod";
import { ok } from "@/lib/result";
import {
  bubblePressurePa,
  bubbleTemperatureK,
  dewPressurePa,
  dewTemperatureK,
  saturationSource,
} from "../refrigerants/saturation";
import { celsiusToKelvin, fromPa, kelvinToCelsius, paToMicron, toPa } from "../units";
import { COLDEST_ICE_K, saturationPressurePa, WATER_CRITICAL_POINT, waterPhase } from "../water";
import { knownRefrigerant, questionId, refuseSaturation } from "./answer";

/** Asks for the saturation of a refrigerant, at a temperature or at an absolute pressure. */
export const saturationQuestion = z
  .strictObject({
    id: questionId,
    refrigerant: knownRefrigerant,
    temperatureC: z.number().exactOptional(),
    pressureKPaAbs: z.number().positive().exactOptional(),
  })
  .refine((question) => (question.temperatureC === undefined) !== (question.pressureKPaAbs === undefined), {
    error: "give either temperatureC or pressureKPaAbs",
  });

export function answerSaturation(question: z.output<typeof saturationQuestion>) {
  const { id, refrigerant, temperatureC, pressureKPaAbs } = question;
  const source = saturationSource(refrigerant);
  if (temperatureC !== undefined) {
    const atK = celsiusToKelvin(temperatureC);
    const bubble = bubblePressurePa(refrigerant, atK);
    const dew = dewPressurePa(refrigerant, atK);
    if (!bubble.ok) return refuseSaturation(bubble.error, "temperatureC");
    if (!dew.ok) return refuseSaturation(dew.error, "temperatureC");
    const [bubbleKPa, dewKPa] = [fromPa(bubble.value, "kPa"), fromPa(dew.value, "kPa")];
    return ok({ id, bubble: { pressureKPaAbs: bubbleKPa }, dew: { pressureKPaAbs: dewKPa }, source });
  }
  const atPa = toPa(pressureKPaAbs!, "kPa");
  const bubble = bubbleTemperatureK(refrigerant, atPa);
  const dew = dewTemperatureK(refrigerant, atPa);
  if (!bubble.ok) return refuseSaturation(bubble.error, "pressureKPaAbs");
  if (!dew.ok) return refuseSaturation(dew.error, "pressureKPaAbs");
  const [bubbleC, dewC] = [kelvinToCelsius(bubble.value), kelvinToCelsius(dew.value)];
  return ok({ id, bubble: { temperatureC: bubbleC }, dew: { temperatureC: dewC }, source });
}

const COLDEST_C = kelvinToCelsius(COLDEST_ICE_K);
const HOTTEST_C = kelvinToCelsius(WATER_CRITICAL_POINT.temperatureK);

/** Asks for the vapour pressure over water or ice. */
export const waterQuestion = z.strictObject({
  id: questionId,
  temperatureC: z.number().min(COLDEST_C).max(HOTTEST_C),
});

export function answerWater({ id, temperatureC }: z.output<typeof waterQuestion>) {
  const atK = Math.min(Math.max(celsiusToKelvin(temperatureC), COLDEST_ICE_K), WATER_CRITICAL_POINT.temperatureK);
  const pressurePa = saturationPressurePa(atK);
  return ok({ id, saturationPa: pressurePa, saturationMicron: paToMicron(pressurePa), phase: waterPhase(atK) });
}
