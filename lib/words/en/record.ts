import { counted } from "./plural";

/** Recording a step: what is still open, what it will be worth, what keeps it from being saved. */
export const recordWords = {
  beingRead: "The step is being read from this device",
  sayWhyItIsCorrected: "Say why it is corrected.",
  saveTheCorrection: "Save the correction",
  whyItIsCorrected: "Why it is corrected",
  firstRecordStays: "The first record stays in the log beside this one.",
  openInAnotherTab: "This step is open in another tab of this browser.",
  typedThereIsKept: "What was typed there is kept on this device.",
  goOnThereOrHere: "Go on there, or go on here with what was typed so far.",
  goOnHere: "Go on here",
  noRoomNothingSaved: "This tablet has no room left. Nothing was saved.",
  savedBeforeIsSafe: "What was saved before is safe, and what you typed stays on this screen while it is open.",
  makeRoom:
    "Keep this page open. Delete photos, downloads or programs on the tablet, then press again. Write the readings down meanwhile.",
  worthOfThisRecord: "What this record will be worth",
  thisWillSettle: "This will settle the step",
  thisWillFail: "This will fail the step",
  thisWillNotSettle: "This will not settle the step",
  stillToBeAnswered: "Still to be answered.",
  stillToBeFilledIn: "Still to be filled in, or too small.",
  largerThanCanBe: "Larger than can be.",
  noRoom: "This tablet has no room left.",
  correct: (step: string) => `Correct: ${step}`,
  stillOpenAbove: (count: number) =>
    `${counted(count, { one: "One thing is", other: `${count} things are` })} still open above. Nothing was saved yet; what you typed is kept.`,
};
