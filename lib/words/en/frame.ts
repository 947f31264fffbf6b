import { counted } from "./plural";

/** The tablet's frame: where the work is, what keeps it from being sent, and what stands there until a screen is ready. */
export const frameWords = {
  signIn: "Sign in",
  noRoom:
    "This tablet has no room left: nothing new can be saved here. Delete photos or downloads on it. What was saved before is safe.",
  sessionEnded: "The session has ended. Work goes on and is saved here; sign in to send it.",
  seeWhich: "See which",
  sendNow: "Send now",
  serverTrouble: "The server did not answer as it should. Everything is saved here and will be sent.",
  nothingAtThisAddress: "There is nothing at this address",
  tabletBeingOpened: "The tablet is being opened",
  opening: "Opening",
  screenBeingOpened: "The screen is being opened",
  useItNow: "Use it now",
  newerVersion: "A newer version of the tablet is ready. Everything saved here stays.",
  readingThisDevice: "reading this device",
  signInToSend: "sign in to send",
  askTheOffice: "ask the office",
  serverNotAnswering: "server not answering",
  noNetwork: "no network",
  tablet: "Tablet",
  entriesNotTaken: (count: number) =>
    `The server did not take ${counted(count, { one: "one entry", other: `${count} entries` })}. Kept here.`,
};
