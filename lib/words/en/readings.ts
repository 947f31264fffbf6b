import { counted } from "./plural";

/** Readings against a running clock. */
export const readingsWords = {
  leaveThisRecord: "Leave this record and start anew",
  takeOtherReadings: "Take other readings",
  readTheGaugeNow: "Read the gauge now",
  enterWhatItShows: "Enter what the gauge shows now",
  mistypedTakeItBack: "Mistyped: take it back",
  startedTooEarly: "Started too early: start anew",
  keep: "Keep",
  fromAFile: (count: number) => `${count} readings from a file or a paste.`,
  nextReadingIn: (time: string) => `Next reading in ${time}`,
  soFar: (count: number) => counted(count, { one: `${count} reading so far`, other: `${count} readings so far` }),
  partAt: (part: string, time: string) => `${part} at ${time}`,
  ofGoal: (time: string) => `of ${time}`,
};
