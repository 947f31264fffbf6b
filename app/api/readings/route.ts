import { lastHop } from "@/lib/auth/last-hop";
import { ADDRESS_PACE, findInstrument, returnGuess, takeGuess } from "@/lib/db/gate";
import { instrumentTokenHash, receiveBatch } from "@/lib/db/instrument-batches";
import { answer, refuse, refuseBody } from "@/lib/http/answer";
import { readJson } from "@/lib/http/read-body";
import { batchBody, batchKey, TOKEN_FORM } from "@/lib/instruments/batch";

const MAX_BYTES = 512_000;

/**
 * An instrument sends its readings with the secret it was given (Authorization: Bearer) and its own number for the batch (Idempotency-Key).
 * The same batch sent again changes nothing; nothing of a batch with a fault is kept.
 */
export async function POST(request: Request) {
  const asker = `instrument:${lastHop(request.headers.get("x-forwarded-for"))}`;
  const waitS = await takeGuess(asker, ADDRESS_PACE);
  if (waitS > 0) return tooMany(waitS);
  const token = request.headers.get("authorization")?.replace(/^Bearer /, "") ?? "";
  const instrument = TOKEN_FORM.test(token) ? await findInstrument(instrumentTokenHash(token)) : null;
  if (!instrument) return refuse(401, "not-known", "This instrument's secret is not known here.");
  await returnGuess(asker);
  const key = batchKey.safeParse(request.headers.get("idempotency-key"));
  if (!key.success) return refuse(400, "no-key", `Idempotency-Key: ${key.error.issues[0]?.message}.`);
  const body = await readJson(request, MAX_BYTES);
  if (!body.ok) return refuseBody(body.error);
  const batch = batchBody.safeParse(body.value);
  if (!batch.success) {
    const faults = batch.error.issues.slice(0, 20).map(({ path, message }) => ({ path: path.join("."), message }));
    return refuse(400, "malformed", `${faults[0]?.path}: ${faults[0]?.message}`, { faults });
  }
  const kept = await receiveBatch(instrument, key.data, batch.data);
  if (kept.ok) return answer({ kept: kept.value });
  switch (kept.error.code) {
    case "too-many":
      return tooMany(kept.error.waitS);
    case "not-its-unit":
      return refuse(400, "not-its-unit", `unit: this instrument sends ${kept.error.units.join(", ") || "nothing"}.`);
    case "used-otherwise":
      return refuse(409, "used-otherwise", "Other readings were received under this key before.");
  }
}

function tooMany(waitS: number): Response {
  const response = refuse(429, "too-many", `Too many at once: send again after ${waitS} s.`);
  response.headers.set("retry-after", String(waitS));
  return response;
}
