import "server-only";
import type { CompanyId } from "@/lib/ids";
import type { RoadService } from "@/lib/travel/road-service";
import { cellsOf, makeTravelTable } from "@/lib/travel/travel-table";
import { listPlaces } from "@/lib/work/day/day-places";
import { type DayProblem, makeDayProblem } from "@/lib/work/day/day-problem";
import { withTenant } from "../tenant";
import { readDay } from "./read-day";
import { keepLegs, listLegs } from "./travel-legs";

/**
 * The planning problem of a company's day from its rows; with `now` where the day is under way. A road service is
 * asked between two transactions, never inside one.
 */
export async function readDayProblem(
  company: { readonly companyId: CompanyId; readonly timeZone: string; readonly ruleSet: "us" | "eu" },
  day: string,
  options: { readonly now?: Date; readonly roadService?: RoadService } = {},
): Promise<DayProblem> {
  const { roadService: service } = options;
  const { records, places, known } = await withTenant(company.companyId, async (tx) => {
    const records = await readDay(tx, day, company);
    const places = listPlaces(records);
    return { records, places, known: service ? await listLegs(tx, service.url, cellsOf(places.at)) : [] };
  });
  const travel = await makeTravelTable(places.at, records.roads, service && { service, known });
  if (service && travel.learned.length > 0)
    await withTenant(company.companyId, (tx) => keepLegs(tx, service.url, travel.learned));
  const made = makeDayProblem(records, places, travel.seconds, options.now ?? null);
  return { ...made, notes: [...made.notes, ...travel.notes] };
}
