import type { PastWorld } from "./draw-past";

// Everything here is invented: no such people, customers or machines exist.

/** One of the nineteen in twenty whose interval holds the truth on the day it was chosen; drawn on another day it is another past. */
export const HISTORY_SEED = 18;

const firstWords = ["Amberley", "Briarcot", "Cindermill", "Dunwick", "Elmstead", "Foxlow", "Gorsefield", "Hazelmoor"];
const secondWords = ["Laundry", "Care Home", "Library", "Print Works", "Dairy", "Workshops"];

/** Customers of the history, each with a site and three units. */
export const pastCustomers = firstWords.flatMap((first) => secondWords.map((second) => `${first} ${second}`));
export const UNITS_A_CUSTOMER = 3;

/** People who worked in the field beside Tomas and Ines, and how readily each leaves a proof weak. */
export const pastPeople = [
  { name: "Wren Ashdown", email: "wren@fernhollow.example", phone: "555-0106" },
  { name: "Pavel Stonecroft", email: "pavel@fernhollow.example", phone: "555-0107" },
  { name: "Lena Marshfield", email: "lena@fernhollow.example", phone: "555-0108" },
  { name: "Otis Bramwell", email: "otis@fernhollow.example", phone: "555-0109" },
];

/** Tomas, Ines, then the four above. */
const haste = [0.6, 0.9, 0.8, 1.2, 1.9, 0.9];

/** The world the history is drawn in: the same units and people on every run. */
export function pastWorld(todayDay: number): PastWorld {
  const year = new Date(todayDay * 86_400_000).getUTCFullYear();
  const units = pastCustomers.length * UNITS_A_CUSTOMER;
  const unitYears = Array.from({ length: units }, (_, index) => year - 2 - ((index * 7) % 18));
  return { todayDay, unitYears, haste, jobsPerDay: 2.4 };
}
