/** Entries the server did not take. */
export const problemsWords = {
  notTaken: "Not taken by the server",
  theseEntriesAreKept:
    "These entries are kept on this device. A supervisor can see the server's copy and what was wrong with it.",
};
