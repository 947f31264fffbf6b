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

/** A record's fields as its form asks for them; the server keeps them in an order of its own. */
const ORDER: readonly string[] = [
  "method",
  "machine",
  "brokenWith",
  "gas",
  "label",
  "joint",
  "name",
  "serial",
  "refrigerant",
  "result",
  "lockedOut",
  "lockedOutBy",
  "provenDead",
  "storedEnergyDischarged",
  "ventilated",
  "ignitionSourcesControlled",
  "refrigerantIdentified",
  "designPressuresRead",
  "openedAt",
  "closedAt",
  "openEndsCapped",
  "work",
  "majorRepair",
  "parts",
  "joints",
  "brazing",
  "newDrier",
  "contamination",
  "acidTest",
  "startedAt",
  "endedAt",
  "coresOut",
  "oil",
  "oilChangedAt",
  "sweeps",
  "gauge",
  "pump",
  "location",
  "pumpIsolated",
  "wallTemperatureC",
  "atmosphericKPa",
  "checkedAtGaugeKPa",
  "finalGaugeKPa",
  "waitedMinutes",
  "afterWaitGaugeKPa",
  "cylinders",
  "grossBeforeKg",
  "grossAfterKg",
  "lowSideConnected",
  "raisedInSteps",
  "cylinderDisconnected",
  "compressorOffUnderVacuum",
  "basis",
  "by",
  "weighedInKg",
  "scale",
  "coresIn",
  "capsWithSealsFitted",
  "capsTightened",
  "portLeakCheck",
  "ranMinutes",
  "outdoorDryBulbC",
  "metering",
  "suction",
  "liquid",
  "source",
  "record",
  "deviceVerdict",
  "internalVolumeL",
  "resolutionMicron",
  "resolutionKPa",
  "resolutionKg",
  "accuracyPercent",
  "temperatureAccuracyC",
  "calibrationDueOn",
];
const LAST = "note";

export function inOrder(evidence: object): [string, unknown][] {
  const place = (field: string) => {
    const at = ORDER.indexOf(field);
    return field === LAST ? ORDER.length + 1 : at < 0 ? ORDER.length : at;
  };
  return Object.entries(evidence).sort(([a], [b]) => place(a) - place(b));
}

const BY_ENDING: readonly [RegExp, QuantityName][] = [
  [/KPaGauge$|GaugeKPa$|kPaGauge$/, "gaugePressure"],
  [/KPaAbs$/, "absolutePressure"],
  [/^atmosphericKPa$/, "barometer"],
  [/^resolutionKPa$/, "pressureStep"],
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
