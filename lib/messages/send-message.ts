import "server-only";
import { linkAddress, linkHashOf } from "@/lib/auth/link-token";
import { endMessage, lastTold, lockMessage, putOffMessage, readMatter, startSending } from "@/lib/db/customer-messages";
import { ensureStatusLink } from "@/lib/db/status-links";
import { type TenantTx, withTenant } from "@/lib/db/tenant";
import { MOST_ATTEMPTS, type Work } from "@/lib/jobs/job";
import type { Mail, SendMail } from "./mail";
import { type Said, type VisitFacts, whatToTell } from "./what-to-tell";
import { wordMessage } from "./words";

/** What is this late says what was, also after a restored backup. */
const TOO_LATE_MS = 12 * 3_600_000;
const LINK = "{link}";

/**
 * Sends one message of the outbox, never twice: it is marked as being sent before the mail server is spoken to, and a mark
 * found standing means that a process died over it. Then nobody knows whether it arrived, and a person is shown so.
 */
export function sendMessage(send: () => SendMail): Work {
  return async ({ company, key: id, attempts }) => {
    const letter = await withTenant(company, (tx) => prepare(tx, id));
    if (letter === null) return;
    const outcome = await send()(letter);
    return withTenant(company, async (tx) => {
      switch (outcome.became) {
        case "put-off":
          if (attempts >= MOST_ATTEMPTS) await endMessage(tx, id, "failed", outcome.why);
          else if ((await putOffMessage(tx, id, outcome.why)) === "waiting") return "put-off";
          return;
        case "refused":
          return endMessage(tx, id, "failed", outcome.why);
        default:
          return endMessage(tx, id, outcome.became);
      }
    }).then((after) => after ?? undefined);
  };
}

async function prepare(tx: TenantTx, id: string): Promise<Mail | null> {
  const message = await lockMessage(tx, id);
  if (message?.state === "sending") await endMessage(tx, id, "unsure");
  if (message?.state !== "waiting") return null;
  const { state, facts, customer, orderId, matter } = await readMatter(tx, message.visitId);
  const drop = async (why: string) => {
    await endMessage(tx, id, "dropped", why);
    return null;
  };
  if (!customer.mayWrite || customer.email === "") return drop("no-consent");
  if (Date.now() - message.madeAt.getTime() > TOO_LATE_MS) return drop("too-late");
  const said = await saidNow(tx, { ...message, state }, facts);
  if (said === null) return drop("nothing-new");
  const { subject, body } = wordMessage({ ...matter, said, facts, link: LINK });
  await startSending(tx, id, { said, facts, toAddress: customer.email, subject, body });
  const link = linkAddress("visit", await ensureStatusLink(tx, orderId, linkHashOf("visit")));
  return { id, fromName: matter.companyName, to: customer.email, subject, body: body.replace(LINK, link) };
}

async function saidNow(
  tx: TenantTx,
  message: { readonly kind: string; readonly visitId: string; readonly state: string },
  facts: VisitFacts,
): Promise<Said | null> {
  if (message.kind === "on-the-way") return message.state === "on-the-way" ? "on-the-way" : null;
  if (message.state !== "planned" && message.state !== "cancelled") return null;
  return whatToTell(await lastTold(tx, message.visitId), facts, Date.now());
}
