import { toKg } from "@/lib/hvac/units";
import type { NewPerson } from "../new-company";

// Everything here is invented: no such people, companies, addresses or machines exist.

export const demoPassword = "twelve dry hoses";

export const demoCompanies = [
  {
    slug: "fernhollow",
    name: "Fernhollow Cooling (invented)",
    timeZone: "America/Chicago",
    ruleSet: "us" as const,
    people: [
      { name: "Ada Brookstone", email: "ada@fernhollow.example", phone: "555-0101", roles: ["dispatcher"] },
      { name: "Tomas Reedley", email: "tomas@fernhollow.example", phone: "555-0102", roles: ["technician"] },
      { name: "Ines Caldermoor", email: "ines@fernhollow.example", phone: "555-0103", roles: ["technician"] },
      { name: "Marek Holtby", email: "marek@fernhollow.example", phone: "555-0104", roles: ["supervisor"] },
      { name: "June Alderwick", email: "june@fernhollow.example", phone: "555-0105", roles: ["owner"] },
    ] satisfies NewPerson[],
  },
  {
    slug: "saltmarsh",
    name: "Saltmarsh Refrigeration (invented)",
    timeZone: "Europe/Dublin",
    ruleSet: "eu" as const,
    people: [
      { name: "Odile Finchley", email: "odile@saltmarsh.example", phone: "555-0201", roles: ["dispatcher", "owner"] },
      {
        name: "Bram Tarnhill",
        email: "bram@saltmarsh.example",
        phone: "555-0202",
        roles: ["technician", "supervisor"],
      },
      // Lends a hand in both companies, with a role of its own in each.
      { name: "Ines Caldermoor", email: "ines@fernhollow.example", phone: "555-0103", roles: ["supervisor"] },
    ] satisfies NewPerson[],
  },
];

export const fernhollowCertificates = [
  { email: "tomas@fernhollow.example", kind: "us-universal", number: "INV-4471" },
  { email: "tomas@fernhollow.example", kind: "flammables", number: "INV-F-12" },
  { email: "ines@fernhollow.example", kind: "us-type-2", number: "INV-2290" },
];

const split = {
  applianceKind: "comfort_cooling",
  refrigerant: "R-410A",
  chargeKg: 3.4,
  lineM: 9.1,
  liquidMm: 9.53,
  suctionMm: 19.05,
  volumeL: 12.4,
  lowKPa: 1724,
  highKPa: 3275,
};

export const fernhollowCustomers = [
  {
    name: "Willowbend Dental",
    phone: "555-0121",
    site: {
      name: "Practice",
      street: "14 Orchard Row",
      city: "Millford",
      postalCode: "60901",
      latitude: 41.12,
      longitude: -87.86,
      accessNote: "Roof ladder behind the bins; key at reception.",
    },
    units: [
      {
        name: "Rooftop 1",
        maker: "invented maker",
        model: "RT-060",
        serial: "W1-0061",
        yearMade: 2016,
        place: "Roof, north side",
        ...split,
      },
    ],
  },
  {
    name: "Larkspur Apartments",
    phone: "555-0122",
    site: {
      name: "Block C",
      street: "220 Larkspur Lane",
      city: "Millford",
      postalCode: "60901",
      latitude: 41.14,
      longitude: -87.84,
      accessNote: "Caretaker opens until 16:00.",
    },
    units: [
      {
        name: "Split 3B",
        maker: "invented maker",
        model: "SP-024",
        serial: "L3B-118",
        yearMade: 2019,
        place: "Balcony",
        ...split,
        chargeKg: 1.9,
        volumeL: 7.2,
      },
      {
        name: "Split 4A",
        maker: "invented maker",
        model: "SP-024",
        serial: "L4A-119",
        yearMade: 2019,
        place: "Balcony",
        ...split,
        chargeKg: 1.9,
        volumeL: 7.2,
      },
    ],
  },
  {
    name: "Quarry Road School",
    phone: "555-0123",
    site: {
      name: "Main building",
      street: "3 Quarry Road",
      city: "Ashgrove",
      postalCode: "60910",
      latitude: 41.05,
      longitude: -87.95,
      accessNote: "Sign in at the office.",
    },
    units: [
      {
        name: "Heat pump gym",
        maker: "invented maker",
        model: "HP-048",
        serial: "QG-7710",
        yearMade: 2024,
        place: "Behind the gym",
        ...split,
        refrigerant: "R-454B",
        chargeKg: 2.8,
        volumeL: 10.5,
      },
    ],
  },
  {
    name: "Bellweather Grocers",
    phone: "555-0124",
    site: {
      name: "Store 2",
      street: "81 Canal Street",
      city: "Ashgrove",
      postalCode: "60910",
      latitude: 41.06,
      longitude: -87.93,
      accessNote: "Deliveries 6 to 9: park at the side.",
    },
    units: [
      {
        name: "Walk-in cooler",
        maker: "invented maker",
        model: "WC-200",
        serial: "BG-2031",
        yearMade: 2012,
        place: "Plant room, cellar",
        ...split,
        applianceKind: "commercial_refrigeration",
        refrigerant: "R-404A",
        chargeKg: 9.5,
        volumeL: 31,
        lineM: 22,
      },
    ],
  },
  {
    name: "Harrow and Daughters Bakery",
    phone: "555-0125",
    site: {
      name: "Bakehouse",
      street: "9 Mill Lane",
      city: "Millford",
      postalCode: "60901",
      latitude: 41.11,
      longitude: -87.88,
      accessNote: "",
    },
    units: [
      {
        name: "Shop split",
        maker: "invented maker",
        model: "SP-036",
        serial: "HD-0907",
        yearMade: 2010,
        place: "Yard wall",
        ...split,
        refrigerant: "R-410A",
        chargeKg: 2.6,
        volumeL: 9.8,
      },
    ],
  },
];

export const fernhollowTools = [
  {
    kind: "pump",
    name: "Pump 1, two-stage",
    holder: "tomas@fernhollow.example",
    serial: "VP-01",
    litresPerSecond: 2.8,
    ultimateMicron: 25,
    ratedFor: ["A1", "A2L"],
    oilRunHours: 8.4,
    checkInDays: 200,
  },
  {
    kind: "vacuum-gauge",
    name: "Micron gauge 1",
    holder: "tomas@fernhollow.example",
    serial: "VG-01",
    resolution: 1,
    resolutionUnit: "micron",
    accuracyPercent: 5,
    calibratedInDays: 210,
  },
  {
    kind: "vacuum-gauge",
    name: "Micron gauge 2",
    holder: "ines@fernhollow.example",
    serial: "VG-02",
    resolution: 1,
    resolutionUnit: "micron",
    accuracyPercent: 5,
    calibratedInDays: 12,
  },
  {
    kind: "pressure-gauge",
    name: "Test gauge 1",
    holder: "tomas@fernhollow.example",
    serial: "PG-01",
    resolution: 1,
    resolutionUnit: "kPa",
    accuracyPercent: 0.5,
    calibratedInDays: 150,
  },
  {
    kind: "recovery-machine",
    name: "Recovery machine 1",
    holder: "tomas@fernhollow.example",
    serial: "RM-01",
    madeOn: "2021-05-01",
    ratedFor: ["A1", "A2L"],
  },
  {
    kind: "scale",
    name: "Charging scale 1",
    holder: "tomas@fernhollow.example",
    serial: "SC-01",
    resolution: 5,
    resolutionUnit: "g",
    calibratedInDays: 300,
  },
  {
    kind: "leak-detector",
    name: "Detector 1",
    holder: "tomas@fernhollow.example",
    serial: "LD-01",
    ratedFor: ["A1", "A2L"],
    calibratedInDays: 80,
  },
  {
    kind: "hoses",
    name: "Hose set 1, 3/8 inch",
    holder: "tomas@fernhollow.example",
    serial: "HS-01",
    ratedFor: ["A1", "A2L"],
    checkInDays: 25,
  },
];

/** Where people start and when they work, Monday to Friday. */
export const fernhollowField = [
  {
    email: "tomas@fernhollow.example",
    baseName: "At home, Millford",
    latitude: 41.13,
    longitude: -87.87,
    hours: [7 * 60 + 30, 16 * 60],
  },
  {
    email: "ines@fernhollow.example",
    baseName: "At home, Ashgrove",
    latitude: 41.07,
    longitude: -87.92,
    hours: [8 * 60, 16 * 60 + 30],
  },
] as const;

/** The yard, and what the company allows. */
export const fernhollowPlanning = {
  yardLatitude: 41.1,
  yardLongitude: -87.89,
  maxOvertimeMinutes: 60,
  minRestMinutes: 10 * 60,
  lunchFromMinute: 11 * 60 + 30,
  lunchToMinute: 13 * 60 + 30,
};

/** As an American collar is stamped and an American scale reads. */
const lb = (pounds: number) => toKg(pounds, "lb");

export const fernhollowCylinders = [
  {
    label: "R-17",
    contents: "recovered",
    refrigerant: "R-410A",
    waterCapacityKg: lb(47.7),
    tareKg: lb(28.4),
    contentsKg: lb(9),
    requalifyBy: "2028-04-30",
  },
  {
    label: "R-18",
    contents: "empty",
    refrigerant: null,
    waterCapacityKg: lb(47.7),
    tareKg: lb(28),
    contentsKg: 0,
    requalifyBy: "2029-02-28",
  },
  {
    label: "N-41",
    contents: "new",
    refrigerant: "R-410A",
    waterCapacityKg: lb(26.2),
    tareKg: lb(15.7),
    contentsKg: lb(21.6),
    requalifyBy: "2027-08-31",
  },
  {
    label: "N-42",
    contents: "new",
    refrigerant: "R-454B",
    waterCapacityKg: lb(26.2),
    tareKg: lb(15.9),
    contentsKg: lb(19),
    requalifyBy: "2030-01-31",
    forFlammables: true,
  },
];
