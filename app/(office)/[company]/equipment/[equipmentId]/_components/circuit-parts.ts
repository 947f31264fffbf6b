import type { Values } from "@/components/registry/register-field";
import type { FormPart } from "@/components/registry/register-form";
import { choicesOf, refrigerantStateWord, volumeBasisWord } from "@/components/registry/words";
import { fromKg, fromMetre, fromPa, toPa } from "@/lib/hvac";
import type { CircuitFields } from "@/lib/registry/circuit";
import type { UnitSystem } from "@/lib/registry/company";
import { writeInches } from "@/lib/registry/line-size";

/** The circuit's form in the company's units; the names of its fields end in the unit they are typed in. */
export function circuitParts(system: UnitSystem, refrigerants: readonly string[]): readonly FormPart[] {
  const us = system === "us";
  const length = us ? { suffix: "Ft", unit: "ft" } : { suffix: "M", unit: "m" };
  const size = us ? { suffix: "In", unit: "in" } : { suffix: "Mm", unit: "mm" };
  const pressure = us ? { suffix: "Psig", unit: "psig" } : { suffix: "KpaGauge", unit: "kPa g" };
  return [
    {
      title: "Refrigerant",
      fields: [
        { name: "name", label: "Name of the circuit", kind: "text" },
        {
          name: "nameplateRefrigerant",
          label: "On the nameplate",
          kind: "text",
          suggestions: refrigerants,
          optional: true,
        },
        {
          name: "refrigerantState",
          label: "In the circuit now",
          kind: "select",
          choices: choicesOf(refrigerantStateWord),
        },
        {
          name: "actualRefrigerant",
          label: "Which one",
          kind: "text",
          suggestions: refrigerants,
          hint: "Left empty, an identified one is the nameplate's.",
          when: { field: "refrigerantState", is: ["identified", "retrofitted"] },
        },
      ],
    },
    {
      title: "Factory charge",
      lead: "What the nameplate says the factory put in, and for which length of line.",
      fields: [
        ...(us
          ? ([
              { name: "factoryChargeLb", label: "Pounds", kind: "number", unit: "lb", optional: true },
              { name: "factoryChargeOz", label: "and ounces", kind: "number", unit: "oz", optional: true },
            ] as const)
          : ([{ name: "factoryChargeKg", label: "Charge", kind: "number", unit: "kg", optional: true }] as const)),
        {
          name: `factoryLineLength${length.suffix}`,
          label: "Line length it is for",
          kind: "number",
          unit: length.unit,
          optional: true,
        },
      ],
    },
    {
      title: "Line set",
      lead: us ? "Outside diameters as tubing is named: 3/8, 1 1/8." : "Outside diameters.",
      fields: [
        {
          name: `lineLength${length.suffix}`,
          label: "Length, one way",
          kind: "number",
          unit: length.unit,
          optional: true,
        },
        { name: `liquidLineOd${size.suffix}`, label: "Liquid line", kind: "number", unit: size.unit, optional: true },
        { name: `suctionLineOd${size.suffix}`, label: "Suction line", kind: "number", unit: size.unit, optional: true },
      ],
    },
    {
      title: "Design pressures",
      fields: [
        {
          name: `lowSideDesign${pressure.suffix}`,
          label: "Low side",
          kind: "number",
          unit: pressure.unit,
          optional: true,
        },
        {
          name: `highSideDesign${pressure.suffix}`,
          label: "High side",
          kind: "number",
          unit: pressure.unit,
          optional: true,
        },
      ],
    },
    {
      title: "Internal volume",
      lead: "What a hold's rise means depends on it. The estimate is only as good as its interval.",
      fields: [
        { name: "internalVolumeBasis", label: "How it is known", kind: "select", choices: choicesOf(volumeBasisWord) },
        {
          name: "internalVolumeL",
          label: "Volume",
          kind: "number",
          unit: "L",
          when: { field: "internalVolumeBasis", is: ["stated", "measured"] },
        },
      ],
    },
  ];
}

/** A circuit's figures as the form shows them: enough digits to come back as the same figure. */
export function circuitValues(circuit: CircuitFields, system: UnitSystem): Values {
  const shared = {
    name: circuit.name,
    nameplateRefrigerant: circuit.nameplateRefrigerant ?? "",
    refrigerantState: circuit.refrigerantState,
    actualRefrigerant: circuit.actualRefrigerant ?? "",
    internalVolumeBasis: circuit.internalVolumeBasis,
    internalVolumeL: number(circuit.internalVolumeL),
  };
  if (system === "si")
    return {
      ...shared,
      factoryChargeKg: number(circuit.factoryChargeKg),
      factoryLineLengthM: number(circuit.factoryLineLengthM),
      lineLengthM: number(circuit.lineLengthM),
      liquidLineOdMm: number(circuit.liquidLineOdMm),
      suctionLineOdMm: number(circuit.suctionLineOdMm),
      lowSideDesignKpaGauge: number(circuit.lowSideDesignKpaGauge),
      highSideDesignKpaGauge: number(circuit.highSideDesignKpaGauge),
    };
  const ounces = circuit.factoryChargeKg === null ? null : fromKg(circuit.factoryChargeKg, "oz");
  const psig = (kPa: number | null) => number(kPa === null ? null : fromPa(toPa(kPa, "kPa"), "psi"));
  return {
    ...shared,
    factoryChargeLb: number(ounces === null ? null : Math.floor(rounded(ounces) / 16)),
    factoryChargeOz: number(ounces === null ? null : rounded(ounces) % 16),
    factoryLineLengthFt: number(
      circuit.factoryLineLengthM === null ? null : fromMetre(circuit.factoryLineLengthM, "ft"),
    ),
    lineLengthFt: number(circuit.lineLengthM === null ? null : fromMetre(circuit.lineLengthM, "ft")),
    liquidLineOdIn: circuit.liquidLineOdMm === null ? "" : writeInches(circuit.liquidLineOdMm),
    suctionLineOdIn: circuit.suctionLineOdMm === null ? "" : writeInches(circuit.suctionLineOdMm),
    lowSideDesignPsig: psig(circuit.lowSideDesignKpaGauge),
    highSideDesignPsig: psig(circuit.highSideDesignKpaGauge),
  };
}

const rounded = (value: number) => Number(value.toPrecision(7));
const number = (value: number | null) => (value === null ? "" : String(rounded(value)));
