import * as z from "zod";

const digest = z.string().regex(/^[0-9a-f]{64}$/);
const verdict = z.string().min(1).max(40);

/** A link as a tablet makes it: the hash of its secret part, and what the paper says. */
export const certificateLinkWire = z.strictObject({
  id: z.uuid().lowercase(),
  tokenHash: digest,
  paper: z.strictObject({
    digest,
    strength: z.enum(["strong", "fair", "weak", "none"]),
    verdicts: z.strictObject({ pressureTest: verdict, leakCheck: verdict, hold: verdict }),
  }),
});
export type CertificateLinkWire = z.infer<typeof certificateLinkWire>;
