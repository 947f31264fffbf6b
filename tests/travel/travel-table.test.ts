import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { afterEach, describe, expect, test } from "vitest";
import { MIXED_ROADS } from "@/lib/dispatch";
import { cellOf, type Leg, makeTravelTable } from "@/lib/travel/travel-table";

const places = Array.from({ length: 90 }, (_, n) => ({ latitudeDeg: 40 + n / 100, longitudeDeg: -105 }));
const [a, b] = [places[0]!, places[1]!];
const estimateS = async () => (await makeTravelTable([a, b], MIXED_ROADS)).seconds;

let server: Server | undefined;
afterEach(() => new Promise<void>((done) => (server ? server.close(() => done()) : done())));

/** A service on this machine that answers as the test says; the paths it was asked. */
async function serve(answer: (path: string) => { status?: number; body: string } | "silence") {
  const asked: string[] = [];
  server = createServer((request, response) => {
    asked.push(request.url ?? "");
    const answered = answer(request.url ?? "");
    if (answered === "silence") return;
    response.writeHead(answered.status ?? 200, { "content-type": "application/json" }).end(answered.body);
  });
  await new Promise<void>((done) => server!.listen(0, "127.0.0.1", done));
  server.unref();
  const { port } = server.address() as AddressInfo;
  return { asked, service: { url: `http://127.0.0.1:${port}/table/v1/driving`, timeoutMs: 400 } };
}

/** Northward 100 s for each place passed, southward 150 s: a road service's table is not symmetric. */
function drive(path: string): { body: string } {
  const [written, query] = path.split("/driving/")[1]!.split("?");
  const latitudes = written!.split(";").map((each) => Number(each.split(",")[1]));
  const numbers = (name: string) => new URLSearchParams(query).get(name)!.split(";").map(Number);
  const durations = numbers("sources").map((i) =>
    numbers("destinations").map((j) => {
      const passed = Math.round((latitudes[j]! - latitudes[i]!) * 100);
      return passed >= 0 ? passed * 100 : -passed * 150;
    }),
  );
  return { body: JSON.stringify({ code: "Ok", durations }) };
}

describe("without a road service", () => {
  test("ways are estimated from the distance; a place nobody has put on the map is half an hour from any", async () => {
    const { seconds, notes } = await makeTravelTable([a, null, b], MIXED_ROADS);
    expect(seconds[0]?.[1]).toBe(1800);
    expect(seconds[1]).toEqual([1800, 0, 1800]);
    expect(seconds[0]?.[2]).toBeGreaterThan(MIXED_ROADS.arrivingS);
    expect(notes).toEqual([]);
  });
});

describe("with a road service", () => {
  test("its times go before the estimate, each direction for itself, with the time of arriving on top", async () => {
    const { service, asked } = await serve(drive);
    const table = await makeTravelTable([a, b], MIXED_ROADS, { service, known: [] });
    expect(table.seconds).toEqual([
      [0, 100 + MIXED_ROADS.arrivingS],
      [150 + MIXED_ROADS.arrivingS, 0],
    ]);
    expect(table.notes).toEqual([]);
    expect(asked[0]).toContain("/table/v1/driving/-105,40;-105,40.01;");
  });

  test("what is known is not asked again", async () => {
    const { asked, ...served } = await serve(drive);
    const service = { ...served.service, timeoutMs: 30_000 };
    const first = await makeTravelTable(places, MIXED_ROADS, { service, known: [] });
    expect(first.learned).toHaveLength(90 * 89);
    expect(asked.length).toBe(9); // ninety places in blocks of forty, from each block to each
    const again = await makeTravelTable(places, MIXED_ROADS, { service, known: first.learned });
    expect(asked.length).toBe(9);
    expect(again.seconds).toEqual(first.seconds);
    const known = first.learned.filter(({ to }) => to.lat !== cellOf(b).lat);
    await makeTravelTable(places, MIXED_ROADS, { service, known });
    expect(asked.length).toBe(12); // the ways to one place, from three blocks
  });

  test("two places of one building are one place to it, with no way between them", async () => {
    const { service } = await serve(drive);
    const table = await makeTravelTable([a, { ...a, latitudeDeg: 40.00001 }], MIXED_ROADS, { service, known: [] });
    expect(table.learned).toEqual([] as Leg[]);
  });

  test.each([
    ["refuses", { status: 429, body: "{}" }, "refused (status 429)"],
    ["sends no JSON", { body: "<html>" }, "not JSON"],
    ["says it failed", { body: '{"code":"NoTable"}' }, "cannot be used"],
    ["sends another number of ways", { body: '{"code":"Ok","durations":[[0]]}' }, "another number of ways"],
    ["sends a time that cannot be", { body: '{"code":"Ok","durations":[[0,-5],[1,0]]}' }, "cannot be used"],
    ["says nothing in time", "silence", "did not answer in time"],
    ["sends us elsewhere", { status: 302, body: "" }, "refused (status 302)"],
  ] as const)("when it %s, the estimate stands and a note says why", async (_what, answer, why) => {
    const { service } = await serve(() => answer);
    const table = await makeTravelTable([a, b], MIXED_ROADS, { service, known: [] });
    expect(table.seconds).toEqual(await estimateS());
    expect(table.learned).toEqual([]);
    expect(table.notes.join()).toContain(why);
    expect(table.notes.join()).toContain("2 ways are estimated");
  });

  test("when nobody listens there, too", async () => {
    const { service } = await serve(drive);
    await new Promise<void>((done) => server!.close(() => done()));
    const table = await makeTravelTable([a, b], MIXED_ROADS, { service, known: [] });
    expect(table.seconds).toEqual(await estimateS());
    expect(table.notes.join()).toContain("cannot be reached");
  });

  test("where it knows no way, that way alone is estimated", async () => {
    const { service } = await serve(() => ({ body: '{"code":"Ok","durations":[[0,null],[77,0]]}' }));
    const table = await makeTravelTable([a, b], MIXED_ROADS, { service, known: [] });
    expect(table.seconds[0]?.[1]).toBe((await estimateS())[0]?.[1]);
    expect(table.seconds[1]?.[0]).toBe(77 + MIXED_ROADS.arrivingS);
    expect(table.notes.join()).toContain("knows no way there: 1 way");
  });
});
