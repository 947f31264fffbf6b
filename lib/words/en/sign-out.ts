import { counted } from "./plural";

/** Leaving the tablet. */
export const signOutWords = {
  backToToday: "Back to today",
  signOut: "Sign out",
  signingOut: "Signing out",
  lockItAway: "Lock it away and sign out",
  staySignedIn: "Stay signed in",
  cannotLockAway: "On an address without HTTPS this browser cannot lock it away. Send it first, or stay signed in.",
  staysLocked:
    "The office does not have it. It stays on this tablet, locked, and is sent when you sign in here again. Nobody else can open it meanwhile, not even the office: better send it now.",
  sendNow: "Send now",
  allSent: "Everything recorded on this tablet has been sent.",
  typedIsLockedAway: "What you typed is locked away with the rest.",
  typedStays: "What you typed stays on this tablet.",
  takenOffTheTablet:
    "Today, the jobs and their logs are taken off this tablet; they are fetched again for whoever signs in.",
  noNetwork: "There is no network, so the server cannot be told now.",
  noNetworkTodo:
    "This tablet shows nothing of yours from now on. The server ends the session as soon as the tablet reaches it: open the tablet's page once where there is a signal.",
  signOutPerson: (name: string) => `Sign out ${name}`,
  notSentYet: (count: number) =>
    counted(count, { one: "One thing is not sent yet", other: `${count} things are not sent yet` }),
  halfFilledIn: (count: number) =>
    `${counted(count, { one: "One step is", other: `${count} steps are` })} half filled in.`,
};
