import { twoCompanies } from "../db/two-companies";
import { Crew } from "./crew";
import { type Plant, playRun, type RunReport } from "./play-run";
import { serveRoutes } from "./serve-routes";
import { ServerFaults } from "./server-faults";

const LANES = 4;

export interface ProvingGround {
  /** Plays the seeds, some side by side; `untilBroken` leaves the rest when one run found something. */
  play(
    seeds: readonly number[],
    options?: { plant?: Plant; untilBroken?: boolean; onRun?: (reports: readonly RunReport[]) => void },
  ): Promise<RunReport[]>;
  close(): Promise<void>;
}

/** One database for many runs; each lane of runs is a company of its own. */
export async function openProvingGround(): Promise<ProvingGround> {
  const database = await twoCompanies();
  const server = await ServerFaults.plant(database);
  const serve = await serveRoutes();
  const unmuffle = muffle();
  const lanes = await Promise.all(
    Array.from({ length: LANES }, (_, n) => Crew.plant(database, server, serve, `lane-${n}`)),
  );
  return {
    async play(seeds, { plant = {}, untilBroken = false, onRun } = {}) {
      const left = [...seeds];
      const reports: RunReport[] = [];
      const playLane = async (crew: Crew) => {
        for (let seed = left.shift(); seed !== undefined; seed = left.shift()) {
          const report = await playRun(crew, seed, plant);
          reports.push(report);
          onRun?.(reports);
          if (untilBroken && report.violations.length > 0) left.length = 0;
        }
      };
      await Promise.all(lanes.map(playLane));
      return reports.sort((a, b) => a.seed - b.seed);
    },
    async close() {
      unmuffle();
      await server.close();
      await database.drop();
    },
  };
}

/** The routes tell the operator of every failure; here the failures are meant. */
function muffle(): () => void {
  const { error } = console;
  console.error = (first: unknown, ...rest: unknown[]) => {
    if (first !== "request failed") error(first, ...rest);
  };
  return () => {
    console.error = error;
  };
}
