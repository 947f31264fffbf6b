import { createRequire } from "node:module";
import { expect, test } from "vitest";
import { wetBulbK } from "@/lib/hvac/charge/wet-bulb";
import { fromPa, toKelvin } from "@/lib/hvac/units";
import { saturationPressurePa } from "@/lib/hvac/water";

/** Another project's psychrometrics by the ASHRAE Handbook of Fundamentals, as a cross-check from outside. */
const psychrolib = createRequire(import.meta.url)("psychrolib") as {
  readonly SI: number;
  readonly IP: number;
  SetUnitSystem(system: number): void;
  GetSatVapPres(temperatureC: number): number;
  GetTWetBulbFromRelHum(dryBulbC: number, relativeHumidity: number, pressurePa: number): number;
};
psychrolib.SetUnitSystem(psychrolib.SI);

test("vapour pressure agrees within 0.05 % from -60 to 100 C", () => {
  // Hyland and Wexler differ from IAPWS by up to 0.03 % over ice and 0.02 % over liquid.
  for (let temperatureC = -60; temperatureC <= 100; temperatureC += 0.5) {
    const ratio = saturationPressurePa(temperatureC + 273.15) / psychrolib.GetSatVapPres(temperatureC);
    expect(Math.abs(ratio - 1), `${temperatureC} C`).toBeLessThan(5e-4);
  }
});

test("in psi and Fahrenheit it agrees as well as in SI: the units are right", () => {
  psychrolib.SetUnitSystem(psychrolib.IP);
  try {
    for (let temperatureF = -70; temperatureF <= 212; temperatureF += 7) {
      const ratio =
        fromPa(saturationPressurePa(toKelvin(temperatureF, "F")), "psi") / psychrolib.GetSatVapPres(temperatureF);
      expect(Math.abs(ratio - 1), `${temperatureF} F`).toBeLessThan(5e-4);
    }
  } finally {
    psychrolib.SetUnitSystem(psychrolib.SI);
  }
});

test("wet bulb agrees within 0.02 K from 5 to 45 C, 10 to 100 % and two barometers", () => {
  for (const barometerPa of [101_325, 80_000])
    for (let dryBulbC = 5; dryBulbC <= 45; dryBulbC += 5)
      for (let humidity = 0.1; humidity <= 1.0001; humidity += 0.1) {
        const relativeHumidity = Math.min(humidity, 1);
        const ours = wetBulbK(dryBulbC + 273.15, relativeHumidity, barometerPa) - 273.15;
        const theirs = psychrolib.GetTWetBulbFromRelHum(dryBulbC, relativeHumidity, barometerPa);
        expect(Math.abs(ours - theirs), `${dryBulbC} C, ${relativeHumidity}`).toBeLessThan(0.02);
      }
});
