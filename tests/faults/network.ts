import { setTimeout as delay } from "node:timers/promises";
import type { Ask } from "@/lib/sync/device";
import type { Seeded } from "./seeded";

/** What can happen to one request on its way there and back. */
export const NETWORK_FATES = {
  arrives: 52,
  "request-lost": 8,
  "answer-lost": 10,
  "request-cut": 5,
  "answer-cut": 7,
  "sent-twice": 8,
  "comes-late-too": 6,
  slow: 4,
} as const;
export type NetworkFate = keyof typeof NETWORK_FATES;

/** A network between one device and the server: `calm` delivers everything. Copies that come late are kept until delivered. */
export class Network {
  calm = false;
  readonly seen = new Map<NetworkFate, number>();
  readonly #late: (() => Promise<unknown>)[] = [];
  readonly #underWay = new Set<Promise<unknown>>();
  readonly #chance: Seeded;
  readonly #serve: Ask;

  constructor(chance: Seeded, serve: Ask) {
    this.#chance = chance;
    this.#serve = serve;
  }

  ask: Ask = async (path, request) => {
    const fate = this.calm ? "arrives" : this.#chance.weighted(NETWORK_FATES);
    this.seen.set(fate, (this.seen.get(fate) ?? 0) + 1);
    const cut = this.#chance.fraction();
    const serve = (init = request) => this.#follow(this.#serve(path, init));
    switch (fate) {
      case "arrives":
        return serve();
      case "request-lost":
        throw new TypeError("network: the request was lost");
      case "answer-lost":
        await serve();
        throw new TypeError("network: the answer was lost");
      case "request-cut":
        if (request.body === undefined) throw new TypeError("network: the request was cut");
        await serve({ ...request, body: cutShort(bytesOf(request.body), cut) });
        throw new TypeError("network: the request was cut");
      case "answer-cut": {
        const answer = await serve();
        const bytes = new Uint8Array(await answer.arrayBuffer());
        return new Response(cutShort(bytes, cut), { status: answer.status, headers: answer.headers });
      }
      case "sent-twice": {
        const [first, second] = await Promise.all([serve(), serve()]);
        return cut < 0.5 ? first : second;
      }
      case "comes-late-too":
        this.#late.push(() => serve());
        return serve();
      case "slow":
        await delay(3);
        return serve();
    }
  };

  /** Copies of old requests arrive, in no order. */
  async deliverLate(): Promise<void> {
    const late = this.#late.splice(0).sort(() => this.#chance.fraction() - 0.5);
    for (const deliver of late) await deliver().catch(() => {});
  }

  /** Requests whose device is gone are still at work on the server. */
  async settled(): Promise<void> {
    await Promise.allSettled([...this.#underWay]);
  }

  #follow(answer: Promise<Response>): Promise<Response> {
    this.#underWay.add(answer);
    const done = () => this.#underWay.delete(answer);
    answer.then(done, done);
    return answer;
  }
}

function bytesOf(body: BodyInit | null): Uint8Array {
  return typeof body === "string" ? new TextEncoder().encode(body) : (body as Uint8Array);
}

/** The first part of the bytes, then a connection that breaks. */
function cutShort(bytes: Uint8Array, fraction: number): ReadableStream<Uint8Array> {
  const part = bytes.slice(0, Math.floor(bytes.length * fraction));
  return new ReadableStream({
    start: (stream) => stream.enqueue(part),
    pull: (stream) => stream.error(new TypeError("network: cut")),
  });
}
