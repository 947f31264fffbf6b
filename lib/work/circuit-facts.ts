import { leakRulePart } from "@/lib/hvac/leak-rate";
import type { CircuitFacts, RefrigerantFact } from "@/lib/hvac/procedure";
import { globalWarmingPotential } from "@/lib/hvac/refrigerants/global-warming";
import { findRefrigerant } from "@/lib/hvac/refrigerants/refrigerant";
import type { LeakUse } from "@/lib/hvac/rules/us-leak";

/** A circuit and its unit as the register holds them. */
export interface RegisteredCircuit {
  refrigerantState: string;
  actualRefrigerant: string | null;
  factoryChargeKg: number | null;
  lineLengthM: number | null;
  liquidLineOdMm: number | null;
  suctionLineOdMm: number | null;
  internalVolumeL: number | null;
  internalVolumeBasis: string;
  lowSideDesignKpaGauge: number | null;
  highSideDesignKpaGauge: number | null;
  applianceKind: string;
}

/** What a job's first entry says of its circuit, as the register stood on that day. */
export function circuitFactsOf(circuit: RegisteredCircuit, ruleSet: "us" | "eu", day: string): CircuitFacts {
  const { lineLengthM, liquidLineOdMm, suctionLineOdMm } = circuit;
  const lineSetKnown = lineLengthM !== null && liquidLineOdMm !== null && suctionLineOdMm !== null;
  const basis = circuit.internalVolumeBasis === "stated" ? "nameplate" : circuit.internalVolumeBasis;
  return {
    refrigerant: refrigerantFactOf(circuit),
    fullChargeKg: circuit.factoryChargeKg,
    internalVolume:
      circuit.internalVolumeL !== null && (basis === "nameplate" || basis === "measured" || basis === "estimated")
        ? { litres: circuit.internalVolumeL, from: basis }
        : null,
    lowSideDesignKPaGauge: circuit.lowSideDesignKpaGauge,
    highSideDesignKPaGauge: circuit.highSideDesignKpaGauge,
    lineSet: lineSetKnown
      ? { lengthM: lineLengthM, liquidOuterDiameterMm: liquidLineOdMm, suctionOuterDiameterMm: suctionLineOdMm }
      : null,
    applianceClass: circuit.applianceKind === "small_appliance" ? "small-appliance" : "appliance",
    appliance: {
      use: useOf(circuit.applianceKind),
      leakRulesApply: ruleSet === "us" && doLeakRulesApply(circuit, day),
    },
  };
}

export function refrigerantFactOf(circuit: {
  refrigerantState: string;
  actualRefrigerant: string | null;
}): RefrigerantFact {
  if (circuit.refrigerantState === "mixed") {
    return {
      state: "mixed",
      safetyClass: null,
      pressureClass: null,
      note: "The register says the circuit holds a mixture.",
    };
  }
  const known = circuit.actualRefrigerant === null ? undefined : findRefrigerant(circuit.actualRefrigerant);
  if (!known) return { state: "unknown" };
  const { name, safetyClass, pressureClass } = known;
  return { state: "identified", refrigerant: name, safetyClass, pressureClass };
}

type Use = CircuitFacts["appliance"]["use"];

const leakUse: Readonly<Record<Use, LeakUse>> = {
  "comfort-cooling": "comfort-cooling",
  "commercial-refrigeration": "commercial-refrigeration",
  "industrial-process": "industrial-process-refrigeration",
  transport: "refrigerated-transport",
  other: "other",
};

/** The leak rules' word for a kind of appliance. */
export function leakUseOf(applianceKind: string): LeakUse {
  return leakUse[useOf(applianceKind)];
}

function useOf(applianceKind: string): Use {
  switch (applianceKind) {
    case "comfort_cooling":
      return "comfort-cooling";
    case "commercial_refrigeration":
      return "commercial-refrigeration";
    case "industrial_process_refrigeration":
      return "industrial-process";
    case "refrigerated_transport":
      return "transport";
    default:
      return "other";
  }
}

/** Comfort cooling under 50 lb is taken as residential or light commercial, which Part 84 leaves out; the person in charge may know better. */
function doLeakRulesApply(circuit: RegisteredCircuit, date: string): boolean {
  const refrigerant = circuit.actualRefrigerant === null ? undefined : findRefrigerant(circuit.actualRefrigerant);
  if (!refrigerant || circuit.factoryChargeKg === null) return false;
  const use = useOf(circuit.applianceKind);
  return (
    leakRulePart({
      ozoneDepleting: refrigerant.family === "HCFC",
      gwp: globalWarmingPotential(refrigerant, "us-40cfr84"),
      fullChargeKg: circuit.factoryChargeKg,
      use: leakUse[use],
      residentialOrLightCommercial: use === "comfort-cooling" && circuit.factoryChargeKg < 22.7,
      date,
    }) !== null
  );
}
