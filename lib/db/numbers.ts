import "server-only";
import type { TenantTx } from "./tenant";

export type Numbered = "service_call" | "work_order" | "circuit_job";

/** The company's next number of this kind; taken under a row lock, so numbers are never given twice. */
export async function nextNumber(tx: TenantTx, of: Numbered): Promise<bigint> {
  const [row] = await tx.$queryRaw<{ value: bigint }[]>`
    insert into counter (name, value) values (${of}, 1001)
    on conflict (tenant_id, name) do update set value = counter.value + 1
    returning value`;
  return row!.value;
}
