/** Gauges linked by Bluetooth. */
export const instrumentsWords = {
  gaugeWrites: "The gauge writes by itself",
  nothingIsWritten: "Nothing is written now",
  noBluetooth: "This browser lets no page use Bluetooth.",
  notLinked: "The gauge was not linked. Wake it, bring it close, and choose it again.",
  gaugesByBluetooth: "Gauges by Bluetooth",
  lookingForIt: "Looking for it",
  linkAGauge: "Link a gauge by Bluetooth",
  linkASecondGauge: "Link a second gauge to compare",
  toCompare: "to compare",
  gapStaysOpen:
    "Nothing is made up for this time: the gap stays open in the record. Come closer, or look at its battery.",
  farApart:
    "That is more than two good gauges differ at rest: look at oil in a sensor, a closed core, or the hose between them.",
  theyAgree: "They agree.",
  linked: (gauge: string) => `${gauge} linked`,
  saysNothingSince: (gauge: string, time: string) => `${gauge} is linked and says nothing since ${time}`,
  linkLost: (gauge: string, ago: string | null) =>
    `Link to ${gauge} lost${ago === null ? "" : ` ${ago} ago`}: looking for it`,
  battery: (percent: number) => `Battery ${percent} %`,
  letGoOf: (gauge: string) => `Let go of ${gauge}`,
  apart: (difference: string, percent: number) => `${difference} apart, ${percent} % of the higher.`,
};
