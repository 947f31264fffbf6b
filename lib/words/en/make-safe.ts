import { counted } from "./plural";

/** The first step: the unit locked out, the place made safe, what one brings looked over. */
export const makeSafeWords = {
  itIsSafeRecord: "It is safe: record",
  electrical: "Electrical",
  lockedOutAndTagged: "Locked out and tagged",
  testedDead: "Tested dead",
  testerProvedBefore: "Tester proved before and after.",
  storedEnergyDischarged: "Stored energy discharged",
  capacitors: "Capacitors.",
  lockedOutBy: "Locked out by",
  place: "Place",
  areaVentilated: "Area ventilated",
  ignitionSourcesUnderControl: "Ignition sources under control",
  unit: "Unit",
  refrigerantIdentified: "Refrigerant identified",
  designPressuresReadOff: "Design pressures read off the nameplate",
  askedForAsLong: "Asked for as long as the refrigerant is flammable or not identified.",
  gasDetector: "Gas detector on, at floor level",
  whichDetector: "Which detector",
  workZoneMarkedSign: "Work zone marked, sign up",
  noIgnitionSource: "No ignition source in the zone",
  extinguisherWithinReach: "Extinguisher within reach",
  notKnown: "not known",
  asTheRegisterHas: "As the register has it",
  holdItAgainst: "Hold it against the nameplate. Where it differs, say so under “Cannot do this”.",
  refrigerant: "Refrigerant",
  notIdentified: "not identified",
  fullCharge: "Full charge",
  lowSideDesign: "Low side design",
  highSideDesign: "High side design",
  whatYouBring: "What you bring",
  beforeAnythingIsOpened: "Before anything is opened: another one can still be fetched.",
  refrigerantAndClass: (refrigerant: string, safetyClass: string) => `${refrigerant}, class ${safetyClass}`,
  aMixture: "a mixture",
  makesTheProofWeaker: (fault: string) => `${fault}. It makes the proof weaker`,
  noToolIsYours: "No tool is noted as yours: check dates and pump oil on the tools themselves",
  pumpOil: (pump: string, hours: number | null, limit: number) =>
    `${pump}: oil has run ${hours === null ? "for hours nobody noted" : `${hours} of ${limit} h`}. Look at its level and colour before it runs.`,
  noCylinderIsYours: (fullCharge: string | null) =>
    `No recovery cylinder is noted as yours${fullCharge === null ? "" : `; the full charge is ${fullCharge}`}`,
  roomElsewhere: (cylinders: string) => `With room, at the yard or with someone else: ${cylinders}.`,
  eachOfThem: "Each of them",
  toolStands: (tool: { calibratedUntil: string | null; lookDue: string | null; ratedFor: readonly string[] }) =>
    [
      ...(tool.calibratedUntil ? [`calibrated until ${tool.calibratedUntil}`] : []),
      ...(tool.lookDue ? [`next look by ${tool.lookDue}`] : []),
      ...(tool.ratedFor.length > 0 ? [`for classes ${tool.ratedFor.join(", ")}`] : []),
    ].join("; ") || "nothing noted",
  cylinderStands: (each: { contents: string | null; inIt: string; requalifyBy: string | null; room: string | null }) =>
    [
      each.contents ? `${each.inIt} of ${each.contents}` : "empty",
      ...(each.room ? [`room for ${each.room}`] : []),
      each.requalifyBy ? `requalify by ${each.requalifyBy}` : "requalification not known",
    ].join("; "),
  toolsInDate: (count: number) =>
    counted(count, { one: "Your tool is in date", other: `Your ${count} tools are in date` }),
  roomFor: (room: string | null, refrigerant: string | undefined, fullCharge: string | null) =>
    `${room === null ? "No room for" : `Room for ${room} of`} ${refrigerant} in your cylinders${fullCharge === null ? "" : `; the full charge is ${fullCharge}`}`,
};
