import { ok, type Result } from "@/lib/result";
import type { Refrigerant } from "../refrigerants/refrigerant";
import { bubbleTemperatureK, dewTemperatureK, type SaturationError } from "../refrigerants/saturation";

/** Superheat in K: suction line temperature over the dew point at the same place. */
export function superheatK(
  refrigerant: Refrigerant,
  suctionPressureAbsPa: number,
  suctionLineK: number,
): Result<number, SaturationError> {
  const dew = dewTemperatureK(refrigerant, suctionPressureAbsPa);
  return dew.ok ? ok(suctionLineK - dew.value) : dew;
}

/** Subcooling in K: the bubble point at the same place over the liquid line temperature. */
export function subcoolingK(
  refrigerant: Refrigerant,
  liquidPressureAbsPa: number,
  liquidLineK: number,
): Result<number, SaturationError> {
  const bubble = bubbleTemperatureK(refrigerant, liquidPressureAbsPa);
  return bubble.ok ? ok(bubble.value - liquidLineK) : bubble;
}

/** Temperature glide in K at one pressure: dew point over bubble point. */
export function glideK(refrigerant: Refrigerant, pressureAbsPa: number): Result<number, SaturationError> {
  const bubble = bubbleTemperatureK(refrigerant, pressureAbsPa);
  if (!bubble.ok) return bubble;
  const dew = dewTemperatureK(refrigerant, pressureAbsPa);
  return dew.ok ? ok(dew.value - bubble.value) : dew;
}
