/** One gauge reading after isolation; the temperature is that of the coil or the air beside it. */
export interface HoldReading {
  readonly atS: number;
  readonly pressureAbsPa: number;
  readonly temperatureK?: number;
}

/** What the hold is held to: maker's instruction, company rule or our default, whoever chose it. */
export interface HoldCriteria {
  /** The hold may only start at or below this. */
  readonly targetPa: number;
  readonly holdS: number;
  /** Neither the last reading nor the level the circuit is heading for may be above this. */
  readonly maxFinalPa: number;
  /** The part of the rise that does not fade may not be faster than this. */
  readonly maxSteadyRisePaPerS: number;
}

export interface HoldGauge {
  /** Where the sensor sits: on the circuit, or on the pump's side of the valve, where it sees the hose. */
  readonly location: "system" | "pump";
  readonly resolutionPa: number;
  readonly accuracyFraction: number;
}

/** All that is known of an isolated hold before its first reading. */
export interface HoldTerms {
  readonly internalVolumeM3: number;
  readonly wallTemperatureK: number;
  readonly refrigerant: string;
  readonly gauge: HoldGauge;
  readonly criteria: HoldCriteria;
}

/** An isolated hold; `readings[0]` is the moment of isolation and times never run backwards. */
export interface HoldRecord extends HoldTerms {
  readonly readings: readonly HoldReading[];
}
