import { STEP_IDS, type StepId } from "../log/step";
import type { Source } from "./source";

/** One thing that hurts people or wrecks plant at a step. */
export interface Caution extends Source {
  readonly id: string;
  readonly text: string;
  readonly steps: readonly StepId[];
  /** Shown only for these classes; absent: for all. */
  readonly only?: "flammable" | "highly-flammable" | "toxic";
}

const practice = { source: "common practice", mark: "common-practice" } as const;
const UNDER_PRESSURE: readonly StepId[] = ["pressure_test", "leak_check"];
const WITH_REFRIGERANT: readonly StepId[] = ["recover", "break_and_charge", "close", "performance"];

/** @source each caution names its own; gravest first within a step */
export const CAUTIONS: readonly Caution[] = [
  {
    id: "oxygen-explodes",
    text: "Pressurise with dry nitrogen only. Oxygen with oil explodes; compressed air and acetylene are out as well.",
    steps: ["pressure_test", "open_repair"],
    ...practice,
  },
  {
    id: "flame-on-refrigerant",
    text: "No flame on a pipe that holds pressure or refrigerant: recover and purge first. Halocarbons in a flame give HF and HCl, chlorinated ones phosgene. Leave at an acrid smell.",
    steps: ["open_repair"],
    ...practice,
  },
  {
    id: "ignition-sources",
    text: "No ignition source inside the work zone. A detector calibrated for this gas stays on at floor level; ventilate.",
    steps: STEP_IDS.slice(0, -1),
    only: "flammable",
    source: "EN 378-4; IEC 60335-2-40 Annexes DD and HH",
    mark: "memory",
  },
  {
    id: "exclusion-zone",
    text: "Keep others out of the zone. Cut the pipe, do not open it by flame, until it is purged. Sealed electrical parts are not repaired on site.",
    steps: ["make_safe", "recover", "open_repair"],
    only: "highly-flammable",
    ...practice,
  },
  {
    id: "flammable-tools",
    text: "Recovery machine and pump rated for flammables, or the exhaust led to the open air. Ground the cylinder and the scale; left-hand threads.",
    steps: ["recover", "evacuate", "break_and_charge"],
    only: "flammable",
    ...practice,
  },
  {
    id: "leak-sensor",
    text: "Never bypass a leak sensor. Test it and its shut-off valve after the work.",
    steps: ["close", "performance"],
    only: "flammable",
    ...practice,
  },
  {
    id: "toxic",
    text: "Toxic gas: know the way out, keep breathing apparatus ready. Ammonia is immediately dangerous from 300 ppm.",
    steps: STEP_IDS.slice(0, -1),
    only: "toxic",
    source: "NIOSH IDLH list",
    mark: "memory",
  },
  {
    id: "lock-out",
    text: "Lock and tag out, prove dead, discharge capacitors before a hand goes in.",
    steps: ["make_safe"],
    source: "OSHA 29 CFR 1910.147, 1910.333",
    mark: "memory",
  },
  {
    id: "compressor-under-vacuum",
    text: "No voltage and no insulation test on a compressor under vacuum: it arcs inside and fails. It is not a vacuum pump.",
    steps: ["evacuate", "hold", "break_and_charge"],
    source: "installation manuals",
    mark: "read",
  },
  {
    id: "over-pressure",
    text: "Never above the design pressure of the weakest part connected. Use a regulator and a relief valve; a full cylinder holds 2 200 psi and more. Chain it, open it slowly, stand aside.",
    steps: ["pressure_test"],
    ...practice,
  },
  {
    id: "pressure-in-pipe",
    text: "The circuit is under test pressure: no loosening, no brazing, no blow on a joint.",
    steps: UNDER_PRESSURE,
    ...practice,
  },
  {
    id: "no-air-pump-down",
    text: "Never pump down a circuit that has air in it: the compressor can burst.",
    steps: ["recover"],
    ...practice,
  },
  {
    id: "venting",
    text: "Knowingly releasing refrigerant is prohibited.",
    steps: ["recover", "open_repair", "break_and_charge"],
    source: "42 USC 7671g(c), 40 CFR 82.154; Regulation (EU) 2024/573 Article 4",
    mark: "read",
  },
  {
    id: "cylinder-fill",
    text: "Never past the cylinder's fill limit, never out of date, never a disposable one. No heat above 125 F; upright and secured.",
    steps: ["recover"],
    source: "49 CFR 173.304a and cylinder practice",
    mark: "memory",
  },
  {
    id: "oxygen-displacement",
    text: "Vapour is heavier than air and fills low rooms; nitrogen displaces air as well. Ventilate, and monitor oxygen in small rooms: under 19.5 % is deficient.",
    steps: ["make_safe", "recover", "open_repair", "pressure_test", "evacuate", "break_and_charge"],
    source: "OSHA 29 CFR 1910.146",
    mark: "memory",
  },
  {
    id: "hydraulic-lock",
    text: "Liquid shut in between two valves bursts the pipe as it warms: leave it room.",
    steps: ["recover", "break_and_charge", "close"],
    ...practice,
  },
  {
    id: "frostbite",
    text: "Goggles and gloves: liquid refrigerant freezes skin and eyes. Acid-proof gloves for burn-out oil.",
    steps: WITH_REFRIGERANT,
    ...practice,
  },
  {
    id: "high-pressure-tools",
    text: "Hoses and gauges rated for this refrigerant; carbon dioxide at standstill reaches 130 bar.",
    steps: ["recover", "pressure_test", "break_and_charge", "performance"],
    ...practice,
  },
  {
    id: "hot-work",
    text: "Hot-work permit, extinguisher at hand, combustibles out of the way, valves shielded. Nitrogen flows through with an open outlet; cadmium-free alloy; keep out of the fumes.",
    steps: ["open_repair"],
    ...practice,
  },
  {
    id: "freezing-water",
    text: "Drain or circulate water in exchangers before pulling a vacuum or recovering: it freezes and splits them.",
    steps: ["recover", "evacuate"],
    ...practice,
  },
  {
    id: "warming-a-coil",
    text: "Warm a wet coil with warm water, warm air or a listed heater, never a flame. Crankcase heater only with the compressor leads isolated.",
    steps: ["evacuate", "hold"],
    ...practice,
  },
  {
    id: "break-with-vapour",
    text: "Break the vacuum with vapour to slightly above the atmosphere before the gauge comes off; where water is in an exchanger, vapour until it is above freezing.",
    steps: ["break_and_charge"],
    ...practice,
  },
  {
    id: "moving-and-hot",
    text: "Hot discharge pipe and pump body, turning fans: keep clear while it runs.",
    steps: ["evacuate", "performance"],
    ...practice,
  },
  {
    id: "oil-takes-water",
    text: "POE and PVE oil take up water within minutes: keep circuit and cans closed. Oil irritates skin.",
    steps: ["open_repair", "close"],
    ...practice,
  },
  {
    id: "heights",
    text: "Roofs and ladders: fall protection, and mind the weather.",
    steps: ["make_safe"],
    ...practice,
  },
  {
    id: "first-aid",
    text: "Frostbite: lukewarm water, no rubbing. After breathing much refrigerant: fresh air, a doctor, no adrenaline.",
    steps: WITH_REFRIGERANT,
    ...practice,
  },
  {
    id: "waste",
    text: "Used oil, driers and cylinders go by licensed routes.",
    steps: ["records"],
    source: "40 CFR 279 for oil",
    mark: "memory",
  },
];
