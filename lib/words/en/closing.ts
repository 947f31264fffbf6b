import { counted } from "./plural";

/** Closing the job and how strong its proof is. */
export const closingWords = {
  theJobIsClosed: "The job is closed.",
  everythingIsProven: "Everything is proven: close the job.",
  closeTheJob: "Close the job",
  notClosableYet: "Not closable yet",
  recordedAfterClosing:
    "Something was recorded after the job was closed. It is open again and its certificate is stale.",
  aPersonHasToDecide: "A person has to decide",
  theJob: "The job",
  overrides: "Overrides",
  onTheRecord: "On the record of this job",
  refrigerantOfThisJob: "Refrigerant of this job",
  recovered: "Recovered",
  charged: "Charged",
  whatIsMissing: "What is missing",
  askedWaiting: "Asked, waiting",
  granted: "Granted",
  refused: "Refused",
  twoAnswers: "Two answers",
  strengthOfTheProof: "Strength of the proof",
  nothingWeakensIt: "Nothing in the record weakens it.",
  smallestLeakShown: "Smallest leak it could have shown",
  settlesBelow: "Settles below",
  strong: "Strong",
  fair: "Fair",
  weak: "Weak",
  none: "None",
  thingsMissing: (count: number) =>
    `The job cannot close yet: ${counted(count, { one: "one thing is", other: `${count} things are` })} missing.`,
  goTo: (step: string) => `Go to: ${step}`,
  couldNotBeWritten: (problems: string) => `The closing entry could not be written: ${problems}`,
  answer: (words: string) => `Answer: ${words}`,
  atMost: (strength: string) => `(${strength} at most)`,
  aMinute: (pace: string) => `${pace} a minute`,
};
