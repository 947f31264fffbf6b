import "server-only";
import { headers } from "next/headers";
import { lastHop } from "@/lib/auth/last-hop";
import { LINK_TOKEN_FORM, linkTokenHash } from "@/lib/auth/link-token";
import { ADDRESS_PACE, findStatusLink, returnGuess, takeGuess } from "@/lib/db/gate";
import { findOrderStatus } from "@/lib/db/order-status";
import { withTenant } from "@/lib/db/tenant";
import { type OrderStatus, orderStatus } from "@/lib/messages/order-status";

export type StatusAnswer =
  | { readonly at: "unknown" }
  | { readonly at: "wait"; readonly seconds: number }
  | { readonly at: "revoked"; readonly companyName: string }
  | { readonly at: "shown"; readonly companyName: string; readonly status: OrderStatus };

/** What a customer's link shows: the order's number, when, who by first name, and how far it is. Wrong addresses count as guesses. */
export async function readStatus(token: string): Promise<StatusAnswer> {
  if (!LINK_TOKEN_FORM.test(token)) return { at: "unknown" };
  const asker = `status:${lastHop((await headers()).get("x-forwarded-for"))}`;
  const seconds = await takeGuess(asker, ADDRESS_PACE);
  if (seconds > 0) return { at: "wait", seconds };
  const link = await findStatusLink(linkTokenHash(token));
  if (!link) return { at: "unknown" };
  await returnGuess(asker);
  const { companyId, companyName, workOrderId, revokedAt } = link;
  if (revokedAt) return { at: "revoked", companyName };
  const order = await withTenant(companyId, (tx) => findOrderStatus(tx, workOrderId));
  return order ? { at: "shown", companyName, status: orderStatus(order, new Date()) } : { at: "unknown" };
}
