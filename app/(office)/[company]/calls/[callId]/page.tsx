import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Link } from "@/components/ui/link";
import { PageHeader } from "@/components/ui/page-header";
import { Facts } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import { CallState, OrderState, Urgency } from "@/components/work/marks";
import { office } from "@/lib/auth/roles";
import { requireMember } from "@/lib/auth/session";
import { fromColumn } from "@/lib/db/calendar-date";
import { findCall } from "@/lib/db/calls";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";
import { dateWords, whenInFull } from "@/lib/work/site-time";
import { cancelThisCall, orderWork, partHasCome } from "./actions";

export const metadata: Metadata = { title: "Call" };

export default async function CallPage({ params }: { params: Promise<{ company: string; callId: string }> }) {
  const { company, callId } = await params;
  const member = await requireMember(company, ...office);
  if (!isUuid(callId)) notFound();
  const call = await withTenant(member.companyId, (tx) => findCall(tx, callId));
  if (!call) notFound();
  const { site, customer, equipment } = call;
  return (
    <>
      <PageHeader
        title={`Call ${call.number}`}
        lead={call.symptom}
        back={{ href: `/${company}/calls`, label: "Calls" }}
        actions={
          call.state === "new" && (
            <>
              <form action={cancelThisCall}>
                <Address company={company} callId={call.id} />
                <SubmitButton kind="quiet">Cancel the call</SubmitButton>
              </form>
              {call.partAwaited && !call.partCameAt && (
                <form action={partHasCome}>
                  <Address company={company} callId={call.id} />
                  <SubmitButton kind="quiet">The part has come</SubmitButton>
                </form>
              )}
              <form action={orderWork}>
                <Address company={company} callId={call.id} />
                <SubmitButton>Open a work order</SubmitButton>
              </form>
            </>
          )
        }
      />
      <Facts
        items={[
          { term: "State", value: <CallState state={call.state} /> },
          { term: "Urgency", value: <Urgency urgency={call.urgency} /> },
          { term: "Customer", value: <Link href={`/${company}/customers/${customer.id}`}>{customer.name}</Link> },
          { term: "On the phone", value: [call.caller, customer.phone].filter(Boolean).join(", ") || "not noted" },
          { term: "Site", value: [site.name, site.street, site.city].filter(Boolean).join(", ") },
          {
            term: "Unit",
            value: equipment ? (
              <Link href={`/${company}/equipment/${equipment.id}`}>{equipment.name}</Link>
            ) : (
              "not said"
            ),
          },
          ...(call.dueBy ? [{ term: "To be done", value: dueWords(call) }] : []),
          ...(call.partAwaited
            ? [
                {
                  term: "Part",
                  value: call.partCameAt
                    ? `${call.partAwaited}, come ${whenInFull(call.partCameAt, site.timeZone)}`
                    : `${call.partAwaited}, awaited`,
                },
              ]
            : []),
          {
            term: call.origin === "call" ? "Taken" : "Made by itself",
            value: `${whenInFull(call.takenAt, site.timeZone)} ${call.origin === "call" ? "by" : "for"} ${call.taker.name}`,
          },
          ...call.workOrders.map((order) => ({
            term: "Work order",
            value: (
              <span className="flex gap-3">
                <Link href={`/${company}/work-orders/${order.id}`}>{String(order.number)}</Link>
                <OrderState state={order.state} />
              </span>
            ),
          })),
        ]}
      />
    </>
  );
}

function dueWords({ dueFrom, dueBy }: { dueFrom: Date | null; dueBy: Date | null }): string {
  const [from, by] = [fromColumn(dueFrom), fromColumn(dueBy)];
  return [from && dateWords(from), by && `by ${dateWords(by)}`].filter(Boolean).join(", ");
}

function Address({ company, callId }: { company: string; callId: string }) {
  return (
    <>
      <input type="hidden" name="company" value={company} />
      <input type="hidden" name="callId" value={callId} />
    </>
  );
}
