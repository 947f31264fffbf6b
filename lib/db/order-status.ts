import "server-only";
import type { OrderFacts } from "@/lib/messages/order-status";
import { factsOf } from "@/lib/messages/what-to-tell";
import { firstNameOf } from "@/lib/messages/words";
import type { TenantTx } from "./tenant";

/** What may be shown of a work order to whoever holds its link; null when there is none. */
export async function findOrderStatus(tx: TenantTx, id: string): Promise<OrderFacts | null> {
  const order = await tx.workOrder.findFirst({
    where: { id },
    select: {
      number: true,
      state: true,
      serviceCall: { select: { site: { select: { timeZone: true } } } },
      visits: {
        select: {
          state: true,
          windowFrom: true,
          windowTo: true,
          plannedStart: true,
          people: { select: { person: { select: { name: true } } }, orderBy: { person: { name: "asc" } } },
        },
      },
    },
  });
  if (!order) return null;
  return {
    number: Number(order.number),
    state: order.state,
    timeZone: order.serviceCall.site.timeZone,
    visits: order.visits.map(({ people, ...visit }) => ({
      state: visit.state,
      facts: factsOf(visit),
      firstNames: people.map(({ person }) => firstNameOf(person.name)),
    })),
  };
}
