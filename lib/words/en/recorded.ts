/** What was recorded at a step, by the names of its fields. */
export const recordedWords = {
  readings: "Readings",
  verdictByRules: (verdict: string, rules: string) => `${verdict}, rules ${rules}`,
  yes: "yes",
  no: "no",
  /** Fields whose words are not just their name taken apart. */
  fields: {
    acidTest: "Acid test",
    afterWaitGaugeKPa: "Gauge after the wait",
    atmosphericKPa: "Barometer",
    checkedAtGaugeKPa: "Checked at",
    coresIn: "Cores in",
    coresOut: "Cores out",
    dateClass: "Made",
    oilChangedAt: "Oil changed",
    sensitivityGramPerYear: "shows",
    deviceVerdict: "Judged on the tablet",
    finalGaugeKPa: "Lowest pressure",
    foundGaugeKPa: "Found at",
    internalVolumeL: "Internal volume",
    kPaGauge: "Pressure",
    label: "Which",
    lfl: "Flammable limit",
    lflPercentBeforeFlame: "Gas before the flame",
    wallTemperatureC: "Coldest wall",
    weighedInKg: "Weighed in",
  },
};
