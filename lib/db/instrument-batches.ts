import "server-only";
import { createHash, randomBytes } from "node:crypto";
import { v7 as uuidv7 } from "uuid";
import type { CompanyId, PersonId, ToolId } from "@/lib/ids";
import { type BatchBody, unitsOfGauge } from "@/lib/instruments/batch";
import { err, ok, type Result } from "@/lib/result";
import { recordOfficeEvent } from "./office-events";
import { type TenantTx, withTenant } from "./tenant";

/** Batches of one instrument in a minute: one a second is more than any gauge needs. */
const MOST_A_MINUTE = 60;
const MOST_SHOWN = 200_000;

/** The hash a secret is known by. */
export const instrumentTokenHash = (token: string) => createHash("sha256").update(token).digest();

/** Makes a secret for an instrument, with its event. It is given out here once and nowhere kept. */
export async function makeInstrumentToken(tx: TenantTx, tool: ToolId, by: PersonId): Promise<string> {
  const [id, token] = [uuidv7(), randomBytes(32).toString("base64url")];
  await tx.$executeRaw`select gate.make_instrument_token(${id}::uuid, ${instrumentTokenHash(token)}, ${tool}::uuid, ${by}::uuid)`;
  const detail = { token: id };
  await recordOfficeEvent(tx, by, { what: "instrument-token-made", subject: "tool", subjectId: tool, detail });
  return token;
}

export interface InstrumentToken {
  readonly id: string;
  readonly made_by: string;
  readonly made_at: Date;
  readonly revoked_at: Date | null;
}

export function listInstrumentTokens(tx: TenantTx, tool: ToolId): Promise<InstrumentToken[]> {
  return tx.$queryRaw<InstrumentToken[]>`select * from gate.list_instrument_tokens(${tool}::uuid)`;
}

/** Takes a secret back for good, with its event; false when there is none to take back. */
export async function revokeInstrumentToken(tx: TenantTx, tool: ToolId, id: string, by: PersonId): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ revoked: boolean }[]>`
    select gate.revoke_instrument_token(${tool}::uuid, ${id}::uuid, ${by}::uuid) as revoked`;
  if (!row!.revoked) return false;
  const detail = { token: id };
  await recordOfficeEvent(tx, by, { what: "instrument-token-revoked", subject: "tool", subjectId: tool, detail });
  return true;
}

export type BatchRefusal =
  | { code: "too-many"; waitS: number }
  | { code: "not-its-unit"; units: readonly string[] }
  | { code: "used-otherwise" };

/** Keeps one batch as it came, or finds it kept already; how many readings it holds, once they are committed. */
export async function receiveBatch(
  { company, tool }: { company: CompanyId; tool: ToolId },
  key: string,
  body: BatchBody,
): Promise<Result<number, BatchRefusal>> {
  const { unit, readings } = body;
  const text = JSON.stringify(readings);
  const digest = createHash("sha256").update(`${unit} ${text}`).digest();
  const [fromAt, toAt] = [readings[0]!.at, readings.at(-1)!.at];
  return withTenant(company, async (tx) => {
    const found = await tx.tool.findFirst({ where: { id: tool }, select: { kind: true } });
    const units = unitsOfGauge[found?.kind ?? ""] ?? [];
    if (!units.includes(unit)) return err({ code: "not-its-unit", units });
    const [known] = await tx.$queryRaw<{ digest: Uint8Array }[]>`
      select digest from instrument_batch where tool_id = ${tool}::uuid and key = ${key}`;
    if (known) return digest.equals(known.digest) ? ok(readings.length) : err({ code: "used-otherwise" });
    const [pace] = await tx.$queryRaw<{ came: number; wait_s: number }[]>`
      select count(*)::integer as came, coalesce(ceil(60 - extract(epoch from now() - min(received_at))), 1)::integer as wait_s
      from instrument_batch where tool_id = ${tool}::uuid and received_at > now() - interval '1 minute'`;
    if (pace!.came >= MOST_A_MINUTE) return err({ code: "too-many", waitS: Math.max(1, pace!.wait_s) });
    const added = await tx.$executeRaw`
      insert into instrument_batch (tool_id, key, digest, unit, from_at, to_at, readings)
      values (${tool}::uuid, ${key}, ${digest}, ${unit}, ${fromAt}::timestamptz, ${toAt}::timestamptz, ${text}::jsonb)
      on conflict do nothing`;
    if (added === 1) return ok(readings.length);
    const [beside] = await tx.$queryRaw<{ digest: Uint8Array }[]>`
      select digest from instrument_batch where tool_id = ${tool}::uuid and key = ${key}`;
    return beside && digest.equals(beside.digest) ? ok(readings.length) : err({ code: "used-otherwise" });
  });
}

export interface SentReading {
  readonly at: string;
  readonly value: number;
  readonly unit: string;
  readonly temperatureC?: number;
}

/** What an instrument sent for a span of time, in the order of its own clock. */
export async function listSentReadings(tx: TenantTx, tool: ToolId, from: Date, to: Date): Promise<SentReading[]> {
  const batches = await tx.$queryRaw<{ unit: string; readings: Omit<SentReading, "unit">[] }[]>`
    select unit, readings from instrument_batch
    where tool_id = ${tool}::uuid and to_at >= ${from} and from_at <= ${to} order by from_at, key limit 500`;
  return batches
    .flatMap(({ unit, readings }) => readings.map((reading) => ({ ...reading, unit })))
    .filter(({ at }) => Date.parse(at) >= from.getTime() && Date.parse(at) <= to.getTime())
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .slice(0, MOST_SHOWN);
}
