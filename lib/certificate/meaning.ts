import { DEFERRAL_LINE } from "@/lib/hvac/rulebook";

/** What a certificate shows. */
export const SHOWS = [
  "What was recorded on site, in its order, and how it was judged by the criteria on the following page.",
  "Its digest is taken over every entry the job was closed on. The address beside the square code computes digest and verdict again from the stored record and says whether this paper still matches.",
] as const;

/** What it does not show, said as plainly. */
export const SHOWS_NOT = [
  "No leak above the size each test could have shown is not the same as no leak. A hold shows dryness well and tightness only roughly; a leaking isolation valve towards a running pump can hide a leak.",
  "Nothing about parts that were not tested, nor about anything after the closing. It is no guarantee of the unit.",
  "A digest shows that a record was changed after closing. It does not show that readings were true when they were made, and it does not protect against whoever operates the server.",
  DEFERRAL_LINE,
] as const;
