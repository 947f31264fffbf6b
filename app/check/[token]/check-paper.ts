import "server-only";
import { headers } from "next/headers";
import { lastHop } from "@/lib/auth/last-hop";
import { type Check, checkTokenHash, judgePaper, momentAt, TOKEN_FORM } from "@/lib/certificate";
import { recomputeJob } from "@/lib/db/certificate-links";
import { ADDRESS_PACE, findCertificateLink, returnGuess, takeGuess } from "@/lib/db/gate";
import { findJob } from "@/lib/db/jobs";
import { withTenant } from "@/lib/db/tenant";

export type CheckAnswer =
  | { readonly at: "unknown" }
  | { readonly at: "wait"; readonly seconds: number }
  | { readonly at: "revoked"; readonly companyName: string }
  | { readonly at: "checked"; readonly paper: CheckedPaper };

/** What the page shows: only what stands on the front of the paper, and nobody's name. */
export interface CheckedPaper {
  readonly companyName: string;
  readonly jobNumber: number;
  readonly unit: string;
  readonly refrigerant: string;
  readonly closedAt: string | null;
  readonly check: Check;
}

/** Looks a paper up by its address and computes its record again. Wrong addresses count as guesses of whoever asks. */
export async function checkPaper(token: string): Promise<CheckAnswer> {
  if (!TOKEN_FORM.test(token)) return { at: "unknown" };
  const asker = `check:${lastHop((await headers()).get("x-forwarded-for"))}`;
  const seconds = await takeGuess(asker, ADDRESS_PACE);
  if (seconds > 0) return { at: "wait", seconds };
  const link = await findCertificateLink(Buffer.from(checkTokenHash(token), "hex"));
  if (!link) return { at: "unknown" };
  await returnGuess(asker);
  if (link.revokedAt) return { at: "revoked", companyName: link.companyName };
  return withTenant(link.companyId, async (tx) => {
    const job = await findJob(tx, link.jobId);
    if (!job) return { at: "unknown" };
    const now = await recomputeJob(tx, link.jobId);
    const closing = now.entries.findLast(
      (entry) => entry.kind === "job-closed" && entry.body.digest === link.paper.digest,
    );
    const fact = now.state.circuit?.refrigerant;
    return {
      at: "checked",
      paper: {
        companyName: link.companyName,
        jobNumber: Number(job.number),
        unit: `${job.circuit.equipment.name}, ${job.circuit.name}`,
        refrigerant: fact?.state === "identified" ? fact.refrigerant : "not identified",
        closedAt: closing ? momentAt(closing.deviceAt, job.workOrder.serviceCall.site.timeZone) : null,
        check: judgePaper(link.paper, now),
      },
    };
  });
}
