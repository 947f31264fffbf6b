/** Words of the controls that tablet and office share. */
export const controlsWords = {
  /** What a shape says where nobody says it better. */
  state: {
    proven: "Proven",
    working: "Working",
    waiting: "Waiting",
    "needs-you": "Needs you",
    refused: "Refused",
    "cannot-say": "Cannot say",
  },
  savedHere: (waiting: number) => (waiting > 0 ? `Saved here, ${waiting} to send` : "Saved here"),
  sending: (waiting: number) => (waiting > 0 ? `Sending, ${waiting} left` : "Sending"),
  sent: "Sent",
  notSent: (waiting: number) =>
    waiting > 0 ? `Saved here, ${waiting} could not be sent` : "Saved here, could not be sent",
  close: "Close",
  optional: "(may be left empty)",
  notYourRole: "This page is not open to your role",
  ownerGivesTheRole: "An owner of the company can give you the role it needs.",
  nothingWasChanged: "Nothing was changed.",
  loading: "Loading",
  notKnown: "not known",
  skipToTheWork: "Skip to the work",
};
