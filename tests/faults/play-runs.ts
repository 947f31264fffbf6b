import { twoCompanies } from "../db/two-companies";
import { Crew } from "./crew";
import { type Plant, playRun, type RunReport } from "./play-run";
import { serveRoutes } from "./serve-routes";
import { ServerFaults } from "./server-faults";

const LANES = 4;

/** Plays the seeds in one database, some side by side, each lane a company of its own. */
export async function playRuns(
  seeds: readonly number[],
  plant?: Plant,
  tell?: (done: number) => void,
): Promise<RunReport[]> {
  const database = await twoCompanies();
  const server = await ServerFaults.plant(database);
  const quiet = muffled();
  try {
    const serve = await serveRoutes();
    const left = [...seeds];
    const reports: RunReport[] = [];
    const lane = async (slug: string) => {
      const crew = await Crew.plant(database, server, serve, slug);
      for (let seed = left.shift(); seed !== undefined; seed = left.shift()) {
        reports.push(await playRun(crew, seed, plant));
        tell?.(reports.length);
      }
    };
    await Promise.all(Array.from({ length: Math.min(LANES, seeds.length) }, (_, n) => lane(`lane-${n}`)));
    return reports.sort((a, b) => a.seed - b.seed);
  } finally {
    quiet();
    await server.close();
    await database.drop();
  }
}

/** The routes tell the operator of every failure; here the failures are meant. */
function muffled(): () => void {
  const { error } = console;
  console.error = (first: unknown, ...rest: unknown[]) => {
    if (first !== "request failed") error(first, ...rest);
  };
  return () => {
    console.error = error;
  };
}
