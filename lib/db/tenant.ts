import "server-only";
import type { CompanyId } from "@/lib/ids";
import { prismaClient, statementPool } from "./client";
import type { Prisma } from "./generated/client";

declare const tenantMark: unique symbol;

/** Time for a transaction that writes thousands of rows at once, on a slow machine. */
export const BULK_TIMEOUT_MS = 180_000;

/** A transaction that sees one company's rows only; the bare client does not fit. */
export type TenantTx = Prisma.TransactionClient & { readonly [tenantMark]: true };

/**
 * Runs `work` in one transaction that sees one company's rows; the setting ends with the transaction.
 * A throw rolls everything back. Queries inside never name the company: the database does.
 */
export function withTenant<T>(company: CompanyId, work: (tx: TenantTx) => Promise<T>, timeoutMs = 20_000): Promise<T> {
  return prismaClient().$transaction(
    async (tx) => {
      await tx.$executeRaw`select set_config('app.tenant_id', ${company}, true)`;
      return work(tx as TenantTx);
    },
    { maxWait: 10_000, timeout: timeoutMs },
  );
}

/**
 * One statement that is a transaction of its own, for the few hot paths where a round trip counts: a call of a database function that
 * takes the company as its first argument and sets it for that transaction.
 */
export async function tenantStatement<Row extends object>(
  text: `select ${string}`,
  values: readonly [CompanyId, ...unknown[]],
): Promise<Row[]> {
  return (await statementPool().query<Row>(text, [...values])).rows;
}
