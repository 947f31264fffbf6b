import "server-only";
import * as z from "zod";
import type { Coordinates } from "@/lib/dispatch";
import { roadTableUrl } from "@/lib/env";
import { err, ok, type Result } from "@/lib/result";

/** A table service that answers as OSRM's does; the address up to the coordinates, as in http://host:5000/table/v1/driving. */
export interface RoadService {
  readonly url: string;
  /** For everything asked for one day together. */
  readonly timeoutMs: number;
}

export type RoadServiceFailure =
  | { readonly code: "too-late" | "unreachable" }
  | { readonly code: "refused"; readonly status: number }
  | { readonly code: "malformed-answer"; readonly says: string };

const TIMEOUT_MS = 3_000;

/** The road service this server is set up with, if any. */
export function configuredRoadService(): RoadService | undefined {
  const url = roadTableUrl();
  return url === undefined ? undefined : { url, timeoutMs: TIMEOUT_MS };
}

const LONGEST_WAY_S = 48 * 3600;
const tableAnswer = z.object({
  code: z.literal("Ok"),
  durations: z.array(z.array(z.number().min(0).max(LONGEST_WAY_S).nullable())),
});

/**
 * Seconds of driving from each place to each, null where the service knows no way.
 * @source OSRM HTTP API v5, service "table": coordinates as lon,lat; sources and destinations as indices; durations in seconds
 */
export async function askRoadService(
  service: RoadService,
  from: readonly Coordinates[],
  to: readonly Coordinates[],
  signal: AbortSignal,
): Promise<Result<readonly (readonly (number | null)[])[], RoadServiceFailure>> {
  const written = [...from, ...to].map(({ longitudeDeg, latitudeDeg }) => `${longitudeDeg},${latitudeDeg}`).join(";");
  const sources = from.map((_, i) => i).join(";");
  const destinations = to.map((_, i) => from.length + i).join(";");
  const query = `annotations=duration&sources=${sources}&destinations=${destinations}`;
  let body: unknown;
  try {
    const response = await fetch(`${service.url}/${written}?${query}`, { signal, redirect: "manual" });
    if (!response.ok) return err({ code: "refused", status: response.status });
    body = await response.json();
  } catch (error) {
    if (signal.aborted) return err({ code: "too-late" });
    return error instanceof SyntaxError
      ? err({ code: "malformed-answer", says: "not JSON" })
      : err({ code: "unreachable" });
  }
  const answer = tableAnswer.safeParse(body);
  if (!answer.success) return err({ code: "malformed-answer", says: z.prettifyError(answer.error).slice(0, 200) });
  const { durations } = answer.data;
  if (durations.length !== from.length || durations.some((row) => row.length !== to.length))
    return err({ code: "malformed-answer", says: "another number of ways than asked for" });
  return ok(durations);
}
