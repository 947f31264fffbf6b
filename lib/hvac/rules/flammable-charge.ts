import type { Source } from "./source";

/** Which edition of the room-charge rule counts; the product's own listing governs over all of them. */
export type FlammableEdition = "iec-60335-2-40-older" | "iec-60335-2-40-2018" | "ul-60335-2-40-4th";

/** Height in m at which refrigerant would leave the unit; never below 0.6. */
export const RELEASE_HEIGHT_M = { floor: 0.6, window: 1, wall: 1.8, ceiling: 2.2 } as const;
export type UnitPlace = keyof typeof RELEASE_HEIGHT_M;

interface FlammableFactors extends Source {
  readonly edition: FlammableEdition;
  /** Factors in m3 on the lower flammable limit: without restriction, in a room, at most. */
  readonly m1M3: number;
  readonly m1ForA2lM3: number;
  readonly m2M3: number;
  /** null where the figure was not read. */
  readonly m3M3: number | null;
  /** Linear limit 0.75 x LFL x h0 x A beside the root one. */
  readonly linearRoomLimit: boolean;
}

export const FLAMMABLE_FACTORS: readonly FlammableFactors[] = [
  {
    edition: "iec-60335-2-40-older",
    m1M3: 4,
    m1ForA2lM3: 4,
    m2M3: 26,
    m3M3: 130,
    linearRoomLimit: false,
    source: "IEC 60335-2-40 Annex GG, as a unit's manual prints it",
    mark: "read",
  },
  {
    edition: "iec-60335-2-40-2018",
    m1M3: 4,
    m1ForA2lM3: 6,
    m2M3: 26,
    m3M3: 130,
    linearRoomLimit: true,
    source: "IEC 60335-2-40:2018, matched to a manual's tables",
    mark: "computed",
  },
  {
    edition: "ul-60335-2-40-4th",
    m1M3: 4,
    m1ForA2lM3: 6,
    m2M3: 52,
    m3M3: null,
    linearRoomLimit: true,
    source: "UL 60335-2-40 4th edition: m2 as a secondary page states it; R-32 4.05 lb and 35.1 lb",
    mark: "secondary",
  },
];
