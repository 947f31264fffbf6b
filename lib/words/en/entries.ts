/** Entries of a job's log, each by what it is. */
export const entriesWords = {
  jobOpened: "Job opened",
  kindOfJobSet: "Kind of job set",
  refrigerantIdentified: "Refrigerant identified",
  criteriaEntered: "Criteria entered",
  agreedWithTheCustomer: "Agreed with the customer",
  circuitOpened: "Circuit opened",
  overrideGranted: "Override granted",
  overrideRefused: "Override refused",
  leftForToday: "Left for today",
  workResumed: "Work resumed",
  jobClosed: "Job closed",
  step: (step: string, isCorrected: boolean) => (isCorrected ? `${step}, corrected` : step),
  stepLeftOut: (step: string) => `${step} left out`,
  overrideAsked: (step: string) => `Override asked for: ${step}`,
};
