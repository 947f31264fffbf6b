import "server-only";
import { isUuid } from "@/lib/ids";
import type { OutcomeFilter } from "@/lib/work/outcome-query";
import { fromColumn, toColumn } from "./calendar-date";
import type { Prisma } from "./generated/client";
import type { TenantTx } from "./tenant";

const shown = {
  jobId: true,
  closedOn: true,
  strength: true,
  jobKind: true,
  unitAge: true,
  callbackOn: true,
  person: { select: { name: true } },
  job: {
    select: {
      number: true,
      circuit: { select: { name: true, equipment: { select: { name: true } } } },
      workOrder: { select: { serviceCall: { select: { customer: { select: { name: true } } } } } },
      callbacks: {
        where: { state: "confirmed" },
        orderBy: { cameOn: "asc" },
        take: 1,
        select: {
          workOrderId: true,
          causeCode: true,
          ownCause: { select: { words: true } },
          workOrder: { select: { number: true } },
        },
      },
    },
  },
} as const;

/** Jobs behind a figure, the last closed first, in pages. */
export async function listOutcomeJobs(tx: TenantTx, filter: OutcomeFilter, page: { take: number; skip?: number }) {
  const rows = await tx.jobOutcome.findMany({
    where: whereOf(filter),
    select: shown,
    orderBy: [{ closedOn: "desc" }, { jobId: "desc" }],
    ...page,
  });
  return rows.map(({ job, ...row }) => ({
    ...row,
    closedOn: fromColumn(row.closedOn)!,
    callbackOn: fromColumn(row.callbackOn),
    number: Number(job.number),
    unit: `${job.circuit.equipment.name}, ${job.circuit.name}`,
    customer: job.workOrder.serviceCall.customer.name,
    callback: job.callbacks[0] ?? null,
  }));
}

export function countOutcomeJobs(tx: TenantTx, filter: OutcomeFilter): Promise<number> {
  return tx.jobOutcome.count({ where: whereOf(filter) });
}

function whereOf(filter: OutcomeFilter): Prisma.JobOutcomeWhereInput {
  const { fromDay, toDay, jobKind, strengths, personId, cameBack, cause } = filter;
  return {
    closedOn: { gte: toColumn(fromDay)!, lt: toColumn(toDay)! },
    ...(jobKind !== null && { jobKind }),
    ...(strengths !== null && { strength: { in: [...strengths] } }),
    ...(personId !== null && { personId }),
    ...(cameBack !== null && { callbackOn: cameBack ? { not: null } : null }),
    ...(cause !== null && {
      job: {
        callbacks: { some: { state: "confirmed", ...(isUuid(cause) ? { ownCauseId: cause } : { causeCode: cause }) } },
      },
    }),
  };
}
