/** Which of the company's tools was used, and how it stands. */
export const toolsWords = {
  anotherOne: "Another one",
  whichOne: "Which one",
  makeItFindableName: "Make it findable: name and serial.",
  oilHoursNotKnown: "Oil hours not known",
  /** A fault comes as a clause: "calibration is over", or "in …" where it is told of the tool itself. */
  itsFault: (fault: string) => (fault.startsWith("in") ? `In${fault.slice(2)}` : `Its ${fault}`),
  calibratedUntil: (day: string) => `Calibrated until ${day}`,
  oilHasRun: (hours: number) => `Oil has run ${hours} h`,
};
