import {
  fromKelvin,
  fromKelvinDifference,
  fromKg,
  fromMetre,
  fromPa,
  type LengthUnit,
  type MassUnit,
  type PressureUnit,
  type TemperatureUnit,
  toKelvin,
  toKelvinDifference,
  toKg,
  toMetre,
  toPa,
} from "@/lib/hvac";

/** One way to show and type a quantity; the wire value is what evidence carries. */
export interface UnitForm {
  readonly key: string;
  readonly label: string;
  readonly decimals: number;
  readonly toWire: (shown: number) => number;
  readonly fromWire: (wire: number) => number;
}

export interface QuantityKind {
  readonly forms: readonly [UnitForm, ...UnitForm[]];
  readonly negative?: boolean;
}

const same = (value: number) => value;
const fixed = (label: string, decimals: number): QuantityKind => ({
  forms: [{ key: label, label, decimals, toWire: same, fromWire: same }],
});
const pressure = (unit: PressureUnit, label: string, decimals: number, wire: PressureUnit): UnitForm => ({
  key: unit,
  label,
  decimals,
  toWire: (shown) => fromPa(toPa(shown, unit), wire),
  fromWire: (value) => fromPa(toPa(value, wire), unit),
});
const temperature = (unit: TemperatureUnit): UnitForm => ({
  key: unit,
  label: `°${unit}`,
  decimals: 1,
  toWire: (shown) => fromKelvin(toKelvin(shown, unit), "C"),
  fromWire: (value) => fromKelvin(toKelvin(value, "C"), unit),
});
const difference = (unit: "F" | "K"): UnitForm => ({
  key: unit,
  label: unit === "F" ? "°F" : "K",
  decimals: 1,
  toWire: (shown) => toKelvinDifference(shown, unit),
  fromWire: (value) => fromKelvinDifference(value, unit),
});
const mass = (unit: MassUnit, decimals: number): UnitForm => ({
  key: unit,
  label: unit,
  decimals,
  toWire: (shown) => toKg(shown, unit),
  fromWire: (value) => fromKg(value, unit),
});
const length = (unit: LengthUnit, decimals: number, wire: LengthUnit): UnitForm => ({
  key: unit,
  label: unit,
  decimals,
  toWire: (shown) => fromMetre(toMetre(shown, unit), wire),
  fromWire: (value) => fromMetre(toMetre(value, wire), unit),
});
const perLength = (massUnit: MassUnit, lengthUnit: LengthUnit, decimals: number): UnitForm => ({
  key: `${massUnit}/${lengthUnit}`,
  label: `${massUnit}/${lengthUnit}`,
  decimals,
  toWire: (shown) => toKg(shown, massUnit) / toMetre(1, lengthUnit),
  fromWire: (value) => fromKg(value, massUnit) * toMetre(1, lengthUnit),
});
const CUBIC_FOOT_PER_MINUTE_LPS = (toMetre(1, "ft") ** 3 * 1000) / 60;

/** Every kind of quantity a technician types, each with the units it may be typed in; the first is the usual one. */
export const QUANTITY_KINDS = {
  gaugePressure: {
    forms: [
      pressure("psi", "psig", 1, "kPa"),
      pressure("kPa", "kPa gauge", 1, "kPa"),
      pressure("bar", "bar gauge", 3, "kPa"),
    ],
    negative: true,
  },
  barometer: {
    forms: [pressure("kPa", "kPa", 1, "kPa"), pressure("inHg", "inHg", 2, "kPa"), pressure("mbar", "mbar", 0, "kPa")],
  },
  absolutePressure: {
    forms: [pressure("psi", "psia", 1, "kPa"), pressure("kPa", "kPa absolute", 1, "kPa")],
  },
  vacuum: {
    forms: [
      pressure("micron", "micron", 0, "micron"),
      pressure("Pa", "Pa", 1, "micron"),
      pressure("mbar", "mbar", 3, "micron"),
    ],
  },
  temperature: { forms: [temperature("F"), temperature("C")], negative: true },
  temperatureDifference: { forms: [difference("F"), difference("K")], negative: true },
  mass: { forms: [mass("lb", 2), mass("oz", 1), mass("kg", 3), mass("g", 0)] },
  signedMass: { forms: [mass("lb", 2), mass("oz", 1), mass("kg", 3), mass("g", 0)], negative: true },
  massPerLength: { forms: [perLength("oz", "ft", 2), perLength("g", "m", 1)] },
  lineLength: { forms: [length("ft", 1, "m"), length("m", 2, "m")] },
  boreMm: { forms: [length("in", 3, "mm"), length("mm", 1, "mm")] },
  leakRate: {
    forms: [
      {
        key: "oz",
        label: "oz/year",
        decimals: 2,
        toWire: (shown) => toKg(shown, "oz") * 1000,
        fromWire: (value) => fromKg(value / 1000, "oz"),
      },
      { key: "g", label: "g/year", decimals: 1, toWire: same, fromWire: same },
    ],
  },
  pumpSpeed: {
    forms: [
      {
        key: "cfm",
        label: "cfm",
        decimals: 1,
        toWire: (shown) => shown * CUBIC_FOOT_PER_MINUTE_LPS,
        fromWire: (value) => value / CUBIC_FOOT_PER_MINUTE_LPS,
      },
      { key: "L/s", label: "L/s", decimals: 2, toWire: same, fromWire: same },
    ],
  },
  litres: fixed("L", 2),
  minutes: fixed("min", 0),
  seconds: fixed("s", 0),
  percent: fixed("%", 1),
  ampere: fixed("A", 1),
  count: fixed("", 0),
  areaM2: fixed("m²", 1),
  pressureStep: {
    forms: [pressure("psi", "psi", 2, "kPa"), pressure("kPa", "kPa", 2, "kPa"), pressure("bar", "bar", 4, "kPa")],
  },
  temperatureStep: { forms: [difference("F"), difference("K")] },
} as const satisfies Readonly<Record<string, QuantityKind>>;

export type QuantityName = keyof typeof QUANTITY_KINDS;

/** The unit a person last chose for each kind of quantity. */
export type UnitChoices = Partial<Record<QuantityName, string>>;

/** What a company under metric rules is asked in, where its people chose nothing else. */
export const METRIC: UnitChoices = {
  gaugePressure: "bar",
  barometer: "mbar",
  absolutePressure: "kPa",
  vacuum: "Pa",
  temperature: "C",
  temperatureDifference: "K",
  temperatureStep: "K",
  mass: "kg",
  signedMass: "kg",
  massPerLength: "g/m",
  lineLength: "m",
  boreMm: "mm",
  leakRate: "g",
  pumpSpeed: "L/s",
  pressureStep: "bar",
};

export function formOf(name: QuantityName, choices: UnitChoices): UnitForm {
  const kind: QuantityKind = QUANTITY_KINDS[name];
  return kind.forms.find((form) => form.key === choices[name]) ?? kind.forms[0];
}

/** What was typed, in the wire's unit, without the digits that conversion only pretends to know. */
export function toWire(form: UnitForm, shown: number): number {
  return Number(form.toWire(shown).toPrecision(9));
}

/** A wire value in words: "118.0 psig". Masses in pounds also say the ounces. */
export function quantityWords(name: QuantityName, wire: number, choices: UnitChoices): string {
  const form = formOf(name, choices);
  const number = new Intl.NumberFormat("en-US", {
    minimumFractionDigits: form.decimals,
    maximumFractionDigits: form.decimals,
  }).format(form.fromWire(wire) + 0);
  return form.label === "" ? number : `${number} ${form.label}`;
}

/** A difference of gauge pressures in the unit gauge pressures are read in; an absolute number of kPa. */
export function differenceWords(kPa: number, choices: UnitChoices): string {
  return quantityWords("pressureStep", kPa, { pressureStep: formOf("gaugePressure", choices).key });
}

/** A small vacuum or its change to two digits, never with an exponent. */
export function paceWords(micron: number, choices: UnitChoices): string {
  const form = formOf("vacuum", choices);
  const number = new Intl.NumberFormat("en-US", { maximumSignificantDigits: 2 }).format(form.fromWire(micron));
  return `${number} ${form.label}`;
}

/** The same in the first other unit of its kind, to be shown beside it. */
export function otherWords(name: QuantityName, wire: number, choices: UnitChoices): string | null {
  const kind: QuantityKind = QUANTITY_KINDS[name];
  const mine = formOf(name, choices);
  if (name === "mass" && mine.key === "lb") return poundsAndOunces(wire);
  const other = kind.forms.find((form) => form.key !== mine.key);
  return other ? quantityWords(name, wire, { [name]: other.key }) : null;
}

function poundsAndOunces(massKg: number): string {
  const tenths = Math.round(fromKg(Math.abs(massKg), "oz") * 10);
  const sign = massKg < 0 ? "−" : "";
  return `${sign}${Math.floor(tenths / 160)} lb ${((tenths % 160) / 10).toFixed(1)} oz`;
}
