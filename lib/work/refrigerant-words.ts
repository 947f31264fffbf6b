/** Words for postings, places and events of the refrigerant books. */
export const causeWords: Readonly<Record<string, string>> = {
  opening: "On record when the books began",
  counted: "Counted",
  recovery: "Recovered",
  charge: "Charged",
  "found-short": "Had leaked out before the job",
  purchase: "Bought",
  return: "Returned to the supplier",
  decant: "Decanted",
  shipment: "Shipped to a reclaimer",
  reclaimed: "Back from a reclaimer",
  destruction: "Sent to destruction",
  "past-addition": "Added before the books began",
  release: "Lost before the books began",
  settled: "Cylinder named",
};

export const placeWords: Readonly<Record<string, string>> = {
  before: "Before the books",
  supplier: "Supplier",
  cylinder: "Cylinders",
  circuit: "Circuits",
  unnamed: "Cylinder not named",
  reclaimer: "Reclaimer",
  destroyed: "Destroyed",
  loss: "Lost to the air",
};

export const eventWords: Readonly<Record<string, string>> = {
  repair: "Repair",
  "initial-verification": "Initial verification test",
  "follow-up-verification": "Follow-up verification test",
  "normal-operation": "Normal operating conditions reached",
  "leak-inspection": "Leak inspection",
  "leak-check": "Leak check",
  recheck: "Check after repair",
  "detection-check": "Detection system checked",
  "detection-fitted": "Detection system fitted",
  "retrofit-plan": "Plan to retrofit or retire made",
  "retrofit-done": "Retrofitted or retired",
  "chronic-report": "Chronic leak reported",
  "seasonal-return": "Refrigerant back that was taken out for the season",
  "records-given": "Records handed to the customer",
  withdrawn: "Taken back",
};

/** Events that have a result: passed or failed. */
export const testedEvents: readonly string[] = [
  "initial-verification",
  "follow-up-verification",
  "leak-inspection",
  "leak-check",
  "recheck",
  "detection-check",
];
