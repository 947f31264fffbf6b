import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCircuitFacts, setCircuitFacts } from "@/lib/db/refrigerant/circuit-facts";
import { callForDuty, listDuties, readStandings, refreshDuties, setLeakRateMethod } from "@/lib/db/refrigerant/duties";
import { listLawEvents, recordLawEvent, withdrawLawEvent } from "@/lib/db/refrigerant/law-events";
import { bookMovement, handOver, recordDisposal } from "@/lib/db/refrigerant/movements";
import { listPapers } from "@/lib/db/refrigerant/papers";
import { insertPostings } from "@/lib/db/refrigerant/posting-rows";
import { endReservation, listReservations, reserve } from "@/lib/db/refrigerant/reservations";
import { withTenant } from "@/lib/db/tenant";
import type { LawEventKind } from "@/lib/duties";
import type { PaperKind } from "@/lib/work/paper-query";
import { type Planted, plantCompany, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

let companies = 0;
/** A company whose circuit is a commercial rack of 50 kg (110 lb) of R-404A. */
async function withRack(): Promise<Planted> {
  const at = await plantCompany(database, `rack-${++companies}`);
  await withTenant(at.company, async (tx) => {
    await tx.equipment.updateMany({ data: { applianceKind: "commercial_refrigeration" } });
    await tx.circuit.updateMany({
      data: { factoryChargeKg: 50, actualRefrigerant: "R-404A", nameplateRefrigerant: "R-404A" },
    });
  });
  return at;
}
const add = (at: Planted, on: string, grams: number) =>
  withTenant(at.company, (tx) =>
    insertPostings(tx, [
      {
        from: { kind: "before" },
        to: { kind: "circuit", id: at.circuitId },
        refrigerant: "R-404A",
        grams,
        cause: "past-addition",
        ownerId: null,
        happenedOn: on,
        sourceKey: uuidv7(),
      },
    ]),
  );
const record = (at: Planted, kind: LawEventKind, on: string, passed: boolean | null) =>
  withTenant(at.company, (tx) => {
    const who = { doneBy: "T. Technician", certificate: "us-universal 123", method: "bubbles", note: "" };
    return recordLawEvent(tx, { circuitId: at.circuitId, kind, on, passed, ...who }, at.supervisor.personId);
  });
const duties = (at: Planted, show: "open" | "late" | "done" = "open") =>
  withTenant(at.company, async (tx) => {
    await refreshDuties(tx);
    const rows = await listDuties(tx, { show, code: null }, { take: 100, skip: 0 });
    return rows.map(({ code, due_by, done_on }) => [code, due_by ?? done_on]);
  });

describe("duties of a leak above the trigger", () => {
  test("stand on the list by their last day, and both verification tests work them off", async () => {
    const at = await withRack();
    expect(await duties(at)).toEqual([]);
    await add(at, "2026-10-01", 15_000); // 30 % of the charge
    expect(await duties(at)).toEqual([
      ["initial-verification", "2026-10-31"],
      ["repair", "2026-10-31"],
      ["retrofit-plan", "2026-11-30"],
      ["leak-inspection", "2027-10-01"],
      ["follow-up-verification", null],
    ]);
    await record(at, "repair", "2026-10-05", null);
    await record(at, "initial-verification", "2026-10-05", true);
    expect(await duties(at)).toContainEqual(["follow-up-verification", "2026-10-15"]);
    const followUp = await record(at, "follow-up-verification", "2026-10-12", true);
    expect(await duties(at)).toEqual([["leak-inspection", "2027-10-01"]]);
    expect((await duties(at, "done")).map(([code]) => code).sort()).toEqual([
      "follow-up-verification",
      "initial-verification",
      "repair",
    ]);
    await withTenant(at.company, (tx) =>
      withdrawLawEvent(tx, followUp.ok ? followUp.value : "", "the wrong unit", at.supervisor.personId),
    );
    expect(await duties(at)).toContainEqual(["follow-up-verification", "2026-10-15"]);
    const kept = await withTenant(at.company, (tx) => listLawEvents(tx, at.circuitId));
    expect(kept.map(({ kind, stands }) => [kind, stands])).toContainEqual(["follow-up-verification", false]);
  });

  test("the company's method changed, every circuit is judged anew", async () => {
    const at = await withRack();
    await add(at, "2026-08-01", 500);
    await add(at, "2026-10-01", 4000); // 8 % in 61 days: 48 % annualized, 9 % over the year
    expect((await duties(at)).map(([code]) => code)).toContain("repair");
    await withTenant(at.company, (tx) => setLeakRateMethod(tx, "rolling"));
    expect(await duties(at)).toEqual([]);
    const [standing] = await withTenant(at.company, (tx) => readStandings(tx, [at.circuitId]));
    expect(standing!.standing.rates.at(-1)!.fraction).toBeCloseTo(0.09, 10);
  });

  test("a follow-up call is made once, with its last day, and kept when duties are computed again", async () => {
    const at = await withRack();
    await add(at, "2026-10-01", 15_000);
    await duties(at);
    const asked = { circuitId: at.circuitId, code: "repair", since: "2026-10-01" };
    const call = () => withTenant(at.company, (tx) => callForDuty(tx, asked, at.supervisor.personId));
    const made = await call();
    expect(made.ok).toBe(true);
    expect(await call()).toEqual({ ok: false, error: { code: "already-called" } });
    await record(at, "normal-operation", "2026-10-20", null);
    await duties(at);
    const rows = await withTenant(at.company, (tx) =>
      listDuties(tx, { show: "open", code: "repair" }, { take: 9, skip: 0 }),
    );
    expect(rows[0]!.call_id).toBe(made.ok && made.value);
  });

  test("facts of the circuit go before what is assumed, and every duty follows them", async () => {
    const at = await withRack();
    await add(at, "2026-10-01", 15_000);
    expect((await duties(at)).find(([code]) => code === "repair")).toEqual(["repair", "2026-10-31"]);
    const set = (company: Planted, over: object) =>
      withTenant(company.company, async (tx) => {
        const facts = { ...(await readCircuitFacts(tx, at.circuitId)), ...over };
        return setCircuitFacts(tx, at.circuitId, facts, company.supervisor.personId);
      });
    expect((await set(at, { processShutdown: true })).ok).toBe(true);
    expect((await duties(at)).find(([code]) => code === "repair")).toEqual(["repair", "2027-01-29"]);
    await set(at, { fullChargeGrams: 200_000, fullChargeMethod: "measured" }); // 7.5 % of what it really holds
    expect(await duties(at)).toEqual([]);
    expect(await withTenant(at.company, (tx) => readCircuitFacts(tx, at.circuitId))).toMatchObject({
      fullChargeGrams: 200_000,
      fullChargeMethod: "measured",
      processShutdown: true,
    });
    expect(await set(await withRack(), {})).toEqual({ ok: false, error: { code: "not-found" } });
  });

  test("refrigerant back from the season asks for no repair", async () => {
    const at = await withRack();
    const post = (from: object, to: object, cause: "recovery" | "charge", on: string) =>
      withTenant(at.company, (tx) =>
        insertPostings(tx, [
          {
            from,
            to,
            cause,
            refrigerant: "R-404A",
            grams: 15_000,
            ownerId: null,
            happenedOn: on,
            sourceKey: uuidv7(),
          } as never,
        ]),
      );
    const circuit = { kind: "circuit", id: at.circuitId };
    await post(circuit, { kind: "unnamed" }, "recovery", "2025-11-10");
    await post({ kind: "unnamed" }, circuit, "charge", "2026-04-20");
    expect((await duties(at)).map(([code]) => code)).toContain("repair");
    await record(at, "seasonal-return", "2026-04-20", null);
    expect(await duties(at)).toEqual([]);
  });

  test("another company's circuit is no circuit", async () => {
    const [at, other] = [await withRack(), await withRack()];
    expect(
      await record({ ...at, company: other.company, supervisor: other.supervisor }, "repair", "2026-10-05", null),
    ).toEqual({
      ok: false,
      error: { code: "not-found" },
    });
  });
});

const today = "2026-11-25";
async function withCylinder(contentsKg = 0) {
  const at = await withRack();
  const id = uuidv7();
  const stock = contentsKg > 0 ? { contents: "new", refrigerant: "R-404A" } : { contents: "empty", refrigerant: null };
  await withTenant(at.company, (tx) =>
    tx.cylinder.create({
      data: {
        id,
        label: "R-1",
        waterCapacityKg: 21.6,
        tareKg: 12,
        contentsKg,
        requalifyBy: new Date("2028-04-30"),
        ...stock,
      },
    }),
  );
  return { at, id };
}
const wish = (cylinderId: string, over: object = {}) => ({
  cylinderId,
  direction: "in" as const,
  refrigerant: "R-404A",
  grams: 3000,
  customerId: null,
  purpose: "",
  untilDay: "2026-12-24",
  ...over,
});

describe("promises of a cylinder", () => {
  test("ten at once never pass its fill limit together", async () => {
    const { at, id } = await withCylinder();
    const asked = await Promise.all(
      Array.from({ length: 10 }, () =>
        withTenant(at.company, (tx) => reserve(tx, wish(id), at.dispatcher.personId, today)),
      ),
    );
    const granted = asked.filter(({ ok }) => ok).length;
    expect(granted).toBe(6); // 18 of 18.0 kg: 0.8 x 21.6 kg x 1.044 for R-404A
    const refused = asked.flatMap((each) =>
      each.ok || each.error.code !== "refused" ? [] : [each.error.objections.map(({ code }) => code)],
    );
    expect(refused).toEqual(Array.from({ length: 4 }, () => ["over-limit", "liquid-full-when-hot"]));
  });

  test("stock is promised once; ended, it is free again", async () => {
    const { at, id } = await withCylinder(5);
    const take = (grams: number) =>
      withTenant(at.company, (tx) =>
        reserve(tx, wish(id, { direction: "out", grams, customerId: at.customerId }), at.dispatcher.personId, today),
      );
    const first = await take(4000);
    expect((await take(2000)).ok).toBe(false);
    const standing = await withTenant(at.company, (tx) => listReservations(tx));
    expect(standing).toMatchObject([{ label: "R-1", direction: "out", grams: 4000, untilDay: "2026-12-24" }]);
    await withTenant(at.company, (tx) => endReservation(tx, first.ok ? first.value : "", at.dispatcher.personId));
    expect((await take(2000)).ok).toBe(true);
  });
});

describe("what the office books", () => {
  const book = (at: Planted, movement: object) =>
    withTenant(at.company, (tx) =>
      bookMovement(
        tx,
        {
          kind: "purchase",
          cylinderId: "",
          toCylinderId: null,
          refrigerant: "R-404A",
          grams: 1000,
          party: "Harbour Gases (invented)",
          number: "INV-1",
          note: "",
          on: today,
          ...movement,
        } as never,
        at.supervisor.personId,
      ),
    );

  test("a purchase beyond the limit is booked, with an alarm; a shipment empties the cylinder and forgets its owners", async () => {
    const { at, id } = await withCylinder(5);
    const bought = await book(at, { cylinderId: id, grams: 20_000 });
    expect(bought).toMatchObject({
      ok: true,
      value: { alarms: [{ code: "over-limit" }, { code: "liquid-full-when-hot" }] },
    });
    await book(at, { kind: "shipment", cylinderId: id, grams: 25_000 });
    const left = await withTenant(at.company, (tx) => tx.refrigerantBalance.findMany({ where: { grams: { not: 0 } } }));
    expect(left.map(({ placeKind, grams }) => [placeKind, Number(grams)]).sort()).toEqual([
      ["before", -55_000],
      ["circuit", 50_000],
      ["reclaimer", 25_000],
      ["supplier", -20_000],
    ]);
  });

  test("a cylinder handed over is the other's, and to nobody it cannot go", async () => {
    const { at, id } = await withCylinder();
    const give = (to: string | null) =>
      withTenant(at.company, (tx) => handOver(tx, id, to, today, at.supervisor.personId));
    expect((await give(at.technician.personId)).ok).toBe(true);
    expect((await give(uuidv7())).ok).toBe(false);
    const row = await withTenant(at.company, (tx) => tx.cylinder.findFirstOrThrow({ where: { id } }));
    expect(row.heldBy).toBe(at.technician.personId);
  });

  test("papers carry their mass: of a shipment what was booked, of an appliance given up what was recovered from it", async () => {
    const { at, id } = await withCylinder(5);
    await book(at, { kind: "shipment", cylinderId: id, grams: 2000, number: "M-7" });
    const recovered = {
      refrigerant: "R-404A",
      grams: 9000,
      cause: "recovery",
      ownerId: null,
      happenedOn: today,
    } as const;
    const disposal = { circuitId: at.circuitId, party: "Scrapyard (invented)", number: "S-1", note: "", on: today };
    await withTenant(at.company, async (tx) => {
      const moved = { from: { kind: "circuit", id: at.circuitId }, to: { kind: "cylinder", id } } as const;
      await insertPostings(tx, [{ ...recovered, ...moved, sourceKey: uuidv7() }]);
      expect((await recordDisposal(tx, disposal, at.supervisor.personId)).ok).toBe(true);
    });
    const papers = (company: Planted, kind: PaperKind | null) =>
      withTenant(company.company, (tx) =>
        listPapers(tx, { kind, from: "2026-01-01", to: "2026-12-31" }, { take: 10, skip: 0 }),
      );
    const rows = await papers(at, null);
    expect(rows.map(({ kind, grams, number }) => [kind, grams, number]).sort()).toEqual([
      ["disposal", 9000, "S-1"],
      ["shipment", 2000, "M-7"],
    ]);
    expect(await papers(at, "purchase")).toEqual([]);
    expect(await papers(await withRack(), null)).toEqual([]);
  });
});
