import "server-only";
import { Prisma } from "./generated/client";
import type { TenantTx } from "./tenant";

export type FoundKind = "customer" | "site" | "equipment";

/** One thing found, with the ids of what it belongs to so that a form can fill in all three. */
export interface FoundThing {
  kind: FoundKind;
  id: string;
  label: string;
  detail: string;
  customerId: string;
  siteId: string | null;
}

/**
 * Customers, sites and units in which every word of the query occurs: name, phone, e-mail, address, serial, maker,
 * model. A phone number is found however it is written. Those that begin with the query come first.
 */
export async function searchRegister(
  tx: TenantTx,
  query: string,
  asked: { kinds: readonly FoundKind[]; limit: number },
): Promise<FoundThing[]> {
  const words = query.trim().split(/\s+/).filter(Boolean).slice(0, 8);
  if (words.length === 0) return [];
  const digits = query.replace(/\D/g, "");
  const byPhone =
    digits.length >= 3 && /^[\d\s()+./-]+$/.test(query)
      ? Prisma.sql`or regexp_replace(phone, '[^0-9]', '', 'g') like ${`%${digits}%`}`
      : Prisma.empty;
  const holds = (text: Prisma.Sql) =>
    Prisma.join(
      words.map((word) => Prisma.sql`${text} ilike ${`%${escapeLike(word)}%`}`),
      " and ",
    );
  const rank = (text: Prisma.Sql) => Prisma.sql`not ${text} ilike ${`${escapeLike(query.trim())}%`}`;
  const kinds = {
    customer: Prisma.sql`
      select 'customer' as kind, id, name as label, concat_ws(' · ', nullif(phone, ''), nullif(email, '')) as detail,
             id as "customerId", null::uuid as "siteId", ${rank(Prisma.sql`name`)} as later
      from customer where archived_at is null
        and ((${holds(Prisma.sql`concat_ws(' ', name, phone, email)`)}) ${byPhone})`,
    site: Prisma.sql`
      select 'site', s.id, s.name, concat_ws(' · ', c.name, nullif(concat_ws(', ', nullif(s.street, ''), nullif(s.city, '')), '')),
             c.id, s.id, ${rank(Prisma.sql`s.name`)}
      from site s join customer c on c.tenant_id = s.tenant_id and c.id = s.customer_id
      where s.archived_at is null and c.archived_at is null
        and (${holds(Prisma.sql`concat_ws(' ', s.name, s.street, s.postal_code, s.city, s.region, c.name)`)})`,
    equipment: Prisma.sql`
      select 'equipment', e.id, e.name, concat_ws(' · ', nullif(concat_ws(' ', nullif(e.maker, ''), nullif(e.model, '')), ''),
             'serial ' || nullif(e.serial, ''), c.name, s.name), c.id, s.id, ${rank(Prisma.sql`e.serial`)} and ${rank(Prisma.sql`e.name`)}
      from equipment e join site s on s.tenant_id = e.tenant_id and s.id = e.site_id
        join customer c on c.tenant_id = s.tenant_id and c.id = s.customer_id
      where e.archived_at is null and s.archived_at is null and c.archived_at is null
        and (${holds(Prisma.sql`concat_ws(' ', e.name, e.maker, e.model, e.serial, s.name, c.name)`)})`,
  } satisfies Record<FoundKind, Prisma.Sql>;
  const chosen = [...new Set(asked.kinds)].map(
    (kind) => Prisma.sql`(${kinds[kind]} order by 7, 3 limit ${asked.limit})`,
  );
  const found = await tx.$queryRaw<(FoundThing & { later: boolean })[]>`
    select * from (${Prisma.join(chosen, " union all ")}) as f(kind, id, label, detail, "customerId", "siteId", later)
    order by later, array_position(array['customer','site','equipment'], kind), label limit ${asked.limit}`;
  return found.map(({ later: _later, ...thing }) => thing);
}

function escapeLike(text: string): string {
  return text.replace(/[\\%_]/g, (sign) => `\\${sign}`);
}
