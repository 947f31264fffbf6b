import "server-only";
import type { CompanyId } from "@/lib/ids";
import type { RoadService } from "@/lib/travel/road-service";
import { cellsOf, makeTravelTable } from "@/lib/travel/travel-table";
import { listPlaces } from "@/lib/work/day/day-places";
import { type DayProblem, makeDayProblem } from "@/lib/work/day/day-problem";
import type { DayRecords, VisitRecord } from "@/lib/work/day/day-records";
import { type TenantTx, withTenant } from "../tenant";
import { readDay } from "./read-day";
import { keepLegs, listLegs } from "./travel-legs";

/**
 * The planning problem of a company's day from its rows; with `now` where the day is under way. A road service is
 * asked between two transactions, never inside one.
 */
export async function readDayProblem(
  company: { readonly companyId: CompanyId; readonly timeZone: string; readonly ruleSet: "us" | "eu" },
  day: string,
  options: {
    readonly now?: Date;
    readonly roadService?: RoadService;
    /** Visits that stand in no row yet, read in the same transaction. */
    readonly also?: (tx: TenantTx) => Promise<readonly VisitRecord[]>;
  } = {},
): Promise<DayProblem & { readonly records: DayRecords }> {
  const { roadService: service } = options;
  const { records, places, known } = await withTenant(company.companyId, async (tx) => {
    const stored = await readDay(tx, day, company);
    const records = { ...stored, visits: [...stored.visits, ...((await options.also?.(tx)) ?? [])] };
    const places = listPlaces(records);
    return { records, places, known: service ? await listLegs(tx, service.url, cellsOf(places.at)) : [] };
  });
  const travel = await makeTravelTable(places.at, records.roads, service && { service, known });
  if (service && travel.learned.length > 0)
    await withTenant(company.companyId, (tx) => keepLegs(tx, service.url, travel.learned));
  const made = makeDayProblem(records, places, travel.seconds, options.now ?? null);
  return { ...made, records, notes: [...made.notes, ...travel.notes] };
}
