/** The screen that stopped by a fault of the program. */
export const stoppedWords = {
  thisScreenStopped: "This screen stopped",
  somethingWentWrongWhile: "Something went wrong while showing it.",
  whatTheTabletSaid: "What the tablet said was saved here is on this device and will be sent.",
  openItAgainIf:
    "Open it again; without a network, go where a signal is first. If it stops once more, close the page and open it anew.",
  openItAgain: "Open it again",
};
