import "server-only";
import type { Cell, Leg } from "@/lib/travel/travel-table";
import type { TenantTx } from "../tenant";

/** Roads change: what is older than this many days is asked for again. */
const KEPT_DAYS = 30;

interface Row {
  from_lat: number;
  from_lon: number;
  to_lat: number;
  to_lon: number;
  seconds: number;
}

/** The ways between these cells that this service answered lately. */
export async function listLegs(tx: TenantTx, service: string, cells: readonly Cell[]): Promise<readonly Leg[]> {
  const [lats, lons] = [cells.map(({ lat }) => lat), cells.map(({ lon }) => lon)];
  const rows = await tx.$queryRaw<Row[]>`
    with cell as (select * from unnest(${lats}::int[], ${lons}::int[]) as c (lat, lon))
    select from_lat, from_lon, to_lat, to_lon, seconds from travel_leg
    where service = ${service} and asked_at > now() - make_interval(days => ${KEPT_DAYS})
      and (from_lat, from_lon) in (select lat, lon from cell) and (to_lat, to_lon) in (select lat, lon from cell)`;
  return rows.map((row) => ({
    from: { lat: row.from_lat, lon: row.from_lon },
    to: { lat: row.to_lat, lon: row.to_lon },
    seconds: row.seconds,
  }));
}

/** Keeps what a service answered; in the order of the keys, so that two who keep the same do not wait for each other in a circle. */
export async function keepLegs(tx: TenantTx, service: string, legs: readonly Leg[]): Promise<void> {
  if (legs.length === 0) return;
  const column = (of: (leg: Leg) => number) => legs.map(of);
  await tx.$executeRaw`
    insert into travel_leg (service, from_lat, from_lon, to_lat, to_lon, seconds)
    select ${service}, * from unnest(${column(({ from }) => from.lat)}::int[], ${column(({ from }) => from.lon)}::int[],
      ${column(({ to }) => to.lat)}::int[], ${column(({ to }) => to.lon)}::int[], ${column(({ seconds }) => seconds)}::int[])
    order by 2, 3, 4, 5
    on conflict (tenant_id, service, from_lat, from_lon, to_lat, to_lon)
    do update set seconds = excluded.seconds, asked_at = now()`;
}
