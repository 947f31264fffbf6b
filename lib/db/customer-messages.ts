import "server-only";
import * as z from "zod";
import { factsOf, type Said, type VisitFacts } from "@/lib/messages/what-to-tell";
import { firstNameOf } from "@/lib/messages/words";
import type { TenantTx } from "./tenant";

export type MessageState = "waiting" | "sending" | "sent" | "kept" | "dropped" | "failed" | "unsure";

const factsShape = z.object({
  cancelled: z.boolean(),
  window: z.object({ fromMs: z.number(), toMs: z.number() }).nullable(),
  startMs: z.number().nullable(),
});

/** Holds a message of the outbox until the transaction ends; writers that would change what it says wait, or came first. */
export async function lockMessage(tx: TenantTx, id: string) {
  await tx.$executeRaw`select 1 from customer_message where id = ${id}::uuid for update`;
  return tx.customerMessage.findFirst({
    where: { id },
    select: { id: true, visitId: true, kind: true, state: true, madeAt: true },
  });
}

/** What a message about a visit may speak of, as it is now. */
export async function readMatter(tx: TenantTx, visitId: string) {
  const visit = await tx.visit.findFirstOrThrow({
    where: { id: visitId },
    select: {
      state: true,
      windowFrom: true,
      windowTo: true,
      plannedStart: true,
      people: { select: { person: { select: { name: true } } }, orderBy: { person: { name: "asc" } } },
      workOrder: {
        select: {
          id: true,
          number: true,
          serviceCall: {
            select: {
              customer: { select: { email: true, mayWrite: true } },
              site: { select: { name: true, timeZone: true } },
            },
          },
        },
      },
    },
  });
  const { name } = await tx.company.findFirstOrThrow({ select: { name: true } });
  const { serviceCall, ...order } = visit.workOrder;
  return {
    state: visit.state,
    facts: factsOf(visit),
    customer: serviceCall.customer,
    orderId: order.id,
    matter: {
      companyName: name,
      orderNumber: Number(order.number),
      siteName: serviceCall.site.name,
      timeZone: serviceCall.site.timeZone,
      firstNames: visit.people.map(({ person }) => firstNameOf(person.name)),
    },
  };
}

/** What the customer was told last of a visit's time; also what may have reached them. */
export async function lastTold(tx: TenantTx, visitId: string): Promise<VisitFacts | null> {
  const last = await tx.customerMessage.findFirst({
    where: { visitId, kind: "plan", state: { in: ["sending", "sent", "kept", "unsure"] } },
    orderBy: { endedAt: { sort: "desc", nulls: "first" } },
    select: { facts: true },
  });
  return last ? factsShape.parse(last.facts) : null;
}

export async function endMessage(tx: TenantTx, id: string, state: MessageState, why = ""): Promise<void> {
  await tx.customerMessage.updateMany({ where: { id }, data: { state, why, endedAt: new Date() } });
}

export async function startSending(
  tx: TenantTx,
  id: string,
  letter: { said: Said; facts: VisitFacts; toAddress: string; subject: string; body: string },
): Promise<void> {
  const { facts, ...rest } = letter;
  const { cancelled, window, startMs } = facts;
  await tx.customerMessage.updateMany({
    where: { id },
    data: { ...rest, facts: { cancelled, window: window && { ...window }, startMs }, state: "sending" },
  });
}

/** Back to waiting for another attempt; dropped where a newer one waits already, which will say what is true. */
export async function putOffMessage(tx: TenantTx, id: string, why: string): Promise<"waiting" | "dropped"> {
  const [row] = await tx.$queryRaw<{ state: "waiting" | "dropped" }[]>`
    update customer_message m set why = ${why}, state = case when exists (
        select from customer_message n where n.visit_id = m.visit_id and n.kind = m.kind and n.state = 'waiting')
      then 'dropped' else 'waiting' end
    where id = ${id}::uuid returning state`;
  return row!.state;
}

/** The outbox of a work order, newest first. */
export function listMessages(tx: TenantTx, workOrderId: string) {
  return tx.customerMessage.findMany({
    where: { visit: { workOrderId } },
    orderBy: { madeAt: "desc" },
    take: 30,
    select: {
      id: true,
      kind: true,
      state: true,
      said: true,
      madeAt: true,
      endedAt: true,
      toAddress: true,
      subject: true,
      body: true,
      why: true,
    },
  });
}
