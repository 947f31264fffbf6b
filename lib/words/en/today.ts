/** Today: the visits of the person at the tablet, and what the tablet keeps. */
export const todayWords = {
  today: "Today",
  beingRead: "Today is being read",
  noVisitsToday: "No visits today or tomorrow",
  noVisitsLead: "When the office plans one for you it stands here.",
  nothingMoreToDo: "Nothing more to do today",
  doneStandsBelow: "What was done stands below.",
  theRest: "The rest",
  keptOnThisTablet: "Kept on this tablet",
  noHttps: "This address has no HTTPS: the program cannot be kept here and needs the network to open.",
  programKept: "The program is kept here and opens without a network.",
  programNotKept: "The program is not kept here yet: leave this page open for a moment while there is a network.",
  noTimePlannedYet: "No time planned yet",
  theVisit: "The visit",
  openTheVisit: "Open the visit",
  noTime: "no time",
  /** Whether the browser has promised not to clear what is kept; null where it cannot be asked. */
  promise: {
    true: "The browser has promised to keep it until you clear it.",
    false:
      "The browser may clear it when the tablet runs out of room: put the program on the home screen, and send often.",
    null: "This browser does not say how long it keeps it: send often.",
  },
  /** How a visit stands, by its state. */
  visitState: {
    planned: "Planned",
    "on-the-way": "On the way",
    "on-site": "On site",
    "left-for-today": "Left for today",
    done: "Done",
    cancelled: "Cancelled",
  },
  companyToday: (company: string) => `${company}, today`,
  asTheOfficeHadIt: (ago: string) => `As the office had it ${ago}. It is renewed when there is a network.`,
  signOut: (name: string) => `Sign out ${name}`,
  waitToBeSent: (count: number) => (count === 0 ? "Nothing waits to be sent." : `${count} things wait to be sent.`),
  notTaken: (count: number) => `${count} were not taken by the server and are kept.`,
  room: (usedMB: number, roomMB: string) => `${usedMB} MB used, room for ${roomMB} MB.`,
  promisedBetween: (from: string, to: string) => `Promised between ${from} and ${to}`,
  goOnWithJob: (job: number) => `Go on with job ${job}`,
  proofLastTime: (strength: string) => `Last time the proof was ${strength}`,
  inJob: (job: number) => `(job ${job})`,
};
