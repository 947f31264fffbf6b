import * as z from "zod";

/** The most readings of one batch: an hour at one a second. */
export const MOST_IN_BATCH = 3600;

const VACUUM_UNITS = ["micron", "Pa", "mbar", "Torr"] as const;
const PRESSURE_UNITS = ["kPa", "psi", "bar"] as const;

/** What each kind of gauge may send: a vacuum gauge absolute pressure, a pressure gauge pressure above the air's. */
export const unitsOfGauge: Readonly<Record<string, readonly string[]>> = {
  "vacuum-gauge": VACUUM_UNITS,
  "pressure-gauge": PRESSURE_UNITS,
};

/** What an instrument sends at once: its own clock, its own unit, nothing reworked. */
export const batchBody = z.strictObject({
  unit: z.enum([...VACUUM_UNITS, ...PRESSURE_UNITS]),
  readings: z
    .array(
      z.strictObject({
        at: z.iso.datetime({ offset: true }),
        value: z.number().min(-1_000_000).max(10_000_000),
        temperatureC: z.number().min(-100).max(200).exactOptional(),
      }),
    )
    .min(1)
    .max(MOST_IN_BATCH)
    .superRefine((readings, ctx) => {
      const at = readings.findIndex(
        (reading, index) => index > 0 && Date.parse(reading.at) < Date.parse(readings[index - 1]!.at),
      );
      if (at > 0) ctx.addIssue({ code: "custom", path: [at, "at"], message: "the time runs backwards here" });
    }),
});
export type BatchBody = z.infer<typeof batchBody>;

export const batchKey = z.string().regex(/^[\x21-\x7e]{1,100}$/, "one to a hundred printable letters, no spaces");

/** A secret for an instrument: 32 random bytes, written so that it can be typed into one. */
export const TOKEN_FORM = /^[A-Za-z0-9_-]{43}$/;
