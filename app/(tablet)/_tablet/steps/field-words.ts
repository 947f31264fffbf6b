import { recordedWords } from "@/lib/words/en/recorded";
import type { QuantityName } from "../units/quantity-kinds";

/** A field's name as a person reads it: units off, words apart. */
export function fieldWord(field: string): string {
  const known = (recordedWords.fields as Readonly<Record<string, string>>)[field];
  if (known) return known;
  const bare =
    field.replace(/(KPaGauge|KPaAbs|KPa|Micron|Percent|Minutes|LitresPerSecond|KgPerM|Kg|M2|Mm|C|K|L|M|A)$/, "") ||
    field;
  const apart = bare.replace(/([a-z])([A-Z])/g, "$1 $2").toLowerCase();
  return apart.charAt(0).toUpperCase() + apart.slice(1);
}

const BY_ENDING: readonly [RegExp, QuantityName][] = [
  [/KPaGauge$|GaugeKPa$|kPaGauge$/, "gaugePressure"],
  [/KPaAbs$/, "absolutePressure"],
  [/^atmosphericKPa$/, "barometer"],
  [/^resolutionKPa$/, "kiloPascalStep"],
  [/^resolutionKg$/, "mass"],
  [/[mM]icron$/, "vacuum"],
  [/^temperatureAccuracyC$/, "temperatureStep"],
  [/C$/, "temperature"],
  [/^target(Superheat|Subcooling)K$/, "temperatureDifference"],
  [/KgPerM$/, "massPerLength"],
  [/Kg$/, "mass"],
  [/[mM]inutes$/, "minutes"],
  [/Percent$/, "percent"],
  [/GramPerYear$/, "leakRate"],
  [/[lL]itresPerSecond$/, "pumpSpeed"],
  [/VolumeL$/, "litres"],
  [/M2$/, "areaM2"],
  [/Mm$/, "boreMm"],
  [/LengthM$|^lengthM$/, "lineLength"],
  [/A$/, "ampere"],
];

/** The kind of quantity a field holds, by the unit its name ends in. */
export function quantityOfField(field: string): QuantityName | undefined {
  return BY_ENDING.find(([ending]) => ending.test(field))?.[1];
}
