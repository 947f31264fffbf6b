import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { findInstrument } from "@/lib/db/gate";
import {
  instrumentTokenHash,
  listInstrumentTokens,
  listSentReadings,
  makeInstrumentToken,
  receiveBatch,
  revokeInstrumentToken,
} from "@/lib/db/instrument-batches";
import { withTenant } from "@/lib/db/tenant";
import { ToolId } from "@/lib/ids";
import { type BatchBody, batchBody } from "@/lib/instruments/batch";
import { withConnection } from "./fresh-database";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
let tool: ToolId;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());
beforeEach(async () => {
  tool = await gauge("vacuum-gauge");
});

async function gauge(kind: string): Promise<ToolId> {
  const id = ToolId.parse(uuidv7());
  await withConnection(database.adminUrl, (admin) =>
    admin.query("insert into tool (tenant_id, id, kind, name) values ($1, $2, $3, 'Gauge')", [
      database.alder.company,
      id,
      kind,
    ]),
  );
  return id;
}
const inAlder = <T>(work: Parameters<typeof withTenant<T>>[1]) => withTenant(database.alder.company, work);
const at = (minute: number) => new Date(Date.UTC(2026, 6, 1, 9, minute)).toISOString();
const batch = (from = 0, value = 300): BatchBody => ({
  unit: "Pa",
  readings: [
    { at: at(from), value },
    { at: at(from + 1), value: value + 1, temperatureC: 21.5 },
  ],
});
const send = (key: string, body: BatchBody = batch(), to = tool) =>
  receiveBatch({ company: database.alder.company, tool: to }, key, body);
const listed = (from: number, to: number) =>
  inAlder((tx) => listSentReadings(tx, tool, new Date(at(from)), new Date(at(to))));

describe("an instrument's secret", () => {
  test("leads to its company and tool until it is taken back, and is kept nowhere", async () => {
    const by = database.alder.supervisor.personId;
    const token = await inAlder((tx) => makeInstrumentToken(tx, tool, by));
    expect(await findInstrument(instrumentTokenHash(token))).toEqual({ company: database.alder.company, tool });
    expect(await findInstrument(instrumentTokenHash(`${token.slice(0, -1)}_`))).toBeNull();
    await withConnection(database.adminUrl, async (admin) => {
      const { rows } = await admin.query("select t::text as row from gate.instrument_token t");
      expect(JSON.stringify(rows)).not.toContain(token);
    });
    const [made] = await inAlder((tx) => listInstrumentTokens(tx, tool));
    const theirs = await withTenant(database.birch.company, async (tx) => ({
      seen: await listInstrumentTokens(tx, tool),
      revoked: await revokeInstrumentToken(tx, tool, made!.id, database.birch.supervisor.personId),
    }));
    expect(theirs).toEqual({ seen: [], revoked: false });
    expect(await inAlder((tx) => revokeInstrumentToken(tx, tool, made!.id, by))).toBe(true);
    expect(await findInstrument(instrumentTokenHash(token))).toBeNull();
  });
});

describe("a batch of readings", () => {
  test("is kept as it came, once however often it is sent, and read back by its span", async () => {
    expect(await Promise.all([send("one"), send("one"), send("one")])).toEqual(Array(3).fill({ ok: true, value: 2 }));
    await send("two", batch(5, 400));
    expect(await listed(0, 5)).toEqual([
      { at: at(0), value: 300, unit: "Pa" },
      { at: at(1), value: 301, unit: "Pa", temperatureC: 21.5 },
      { at: at(5), value: 400, unit: "Pa" },
    ]);
    expect(
      await withTenant(database.birch.company, (tx) => listSentReadings(tx, tool, new Date(0), new Date())),
    ).toEqual([]);
  });

  test("with other readings under the same key is refused and changes nothing", async () => {
    await send("one");
    expect(await send("one", batch(0, 999))).toEqual({ ok: false, error: { code: "used-otherwise" } });
    expect((await listed(0, 1))[0]?.value).toBe(300);
  });

  test("in a unit its kind of gauge does not measure is refused", async () => {
    const nitrogen = await gauge("pressure-gauge");
    expect(await send("one", batch(), nitrogen)).toMatchObject({ ok: false, error: { code: "not-its-unit" } });
    const pump = await gauge("pump");
    expect(await send("one", batch(), pump)).toEqual({ ok: false, error: { code: "not-its-unit", units: [] } });
  });

  test("beyond sixty in a minute waits, and says how long; one kept already does not", async () => {
    for (let n = 0; n < 60; n += 1) expect((await send(`key ${n}`, batch(n))).ok).toBe(true);
    const refused = await send("one more", batch(99));
    expect(refused).toMatchObject({ ok: false, error: { code: "too-many" } });
    if (!refused.ok && refused.error.code === "too-many") {
      expect(refused.error.waitS).toBeGreaterThan(0);
      expect(refused.error.waitS).toBeLessThanOrEqual(60);
    }
    expect((await send("key 7", batch(7))).ok).toBe(true);
  });

  test.each([
    ["nothing", { unit: "Pa", readings: [] }],
    [
      "a time that runs backwards",
      {
        unit: "Pa",
        readings: [
          { at: at(1), value: 1 },
          { at: at(0), value: 1 },
        ],
      },
    ],
    ["no number", { unit: "Pa", readings: [{ at: at(1), value: "1" }] }],
    ["a unit nobody knows", { unit: "furlong", readings: [{ at: at(1), value: 1 }] }],
    ["something beside", { unit: "Pa", readings: [{ at: at(1), value: 1 }], company: "x" }],
  ])("that is %s is none", (_what, body) => {
    expect(batchBody.safeParse(body).success).toBe(false);
  });
});
