import { saturationPressurePa } from "../water";

const WATER_TO_AIR = 0.621945;

/**
 * Wet-bulb temperature in K of air whose dry bulb and humidity were read: what the target superheat goes by.
 *
 * Solved by halving between a very dry bulb and the dry bulb; below freezing the wick is iced.
 * @param relativeHumidity 0 to 1
 * @source ASHRAE Handbook of Fundamentals, psychrometrics, the two wet-bulb equations (memory)
 */
export function wetBulbK(dryBulbK: number, relativeHumidity: number, barometerPa: number): number {
  const vapourPa = relativeHumidity * saturationPressurePa(dryBulbK);
  const humidityRatio = (WATER_TO_AIR * vapourPa) / (barometerPa - vapourPa);
  let lowK = dryBulbK - 60;
  let highK = dryBulbK;
  while (highK - lowK > 1e-6) {
    const middleK = (lowK + highK) / 2;
    if (humidityRatioAt(middleK, dryBulbK, barometerPa) > humidityRatio) highK = middleK;
    else lowK = middleK;
  }
  return (lowK + highK) / 2;
}

function humidityRatioAt(wickK: number, dryBulbK: number, barometerPa: number): number {
  const wickPa = saturationPressurePa(wickK);
  const saturated = (WATER_TO_AIR * wickPa) / (barometerPa - wickPa);
  const [wickC, airC] = [wickK - 273.15, dryBulbK - 273.15];
  return wickC >= 0
    ? ((2501 - 2.326 * wickC) * saturated - 1.006 * (airC - wickC)) / (2501 + 1.86 * airC - 4.186 * wickC)
    : ((2830 - 0.24 * wickC) * saturated - 1.006 * (airC - wickC)) / (2830 + 1.86 * airC - 2.1 * wickC);
}
