import "server-only";
import type { CompanyId } from "@/lib/ids";
import { prismaClient } from "./client";
import type { Prisma } from "./generated/client";

declare const tenantMark: unique symbol;

/** A transaction that sees one company's rows only; the bare client does not fit. */
export type TenantTx = Prisma.TransactionClient & { readonly [tenantMark]: true };

/**
 * Runs `work` in one transaction that sees one company's rows; the setting ends with the transaction.
 * A throw rolls everything back. Queries inside never name the company: the database does.
 */
export function withTenant<T>(company: CompanyId, work: (tx: TenantTx) => Promise<T>): Promise<T> {
  return prismaClient().$transaction(
    async (tx) => {
      await tx.$executeRaw`select set_config('app.tenant_id', ${company}, true)`;
      return work(tx as TenantTx);
    },
    { maxWait: 10_000, timeout: 20_000 },
  );
}
