import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { changePlan } from "@/lib/db/board/change-plan";
import { readBoard } from "@/lib/db/board/read-board";
import { takeCall } from "@/lib/db/calls";
import { findLikeCustomer } from "@/lib/db/customers";
import { withTenant } from "@/lib/db/tenant";
import { moveVisit, planVisit } from "@/lib/db/visits";
import { offerWindows } from "@/lib/planner/offer-windows";
import { proposeChanges } from "@/lib/planner/propose-changes";
import type { PlanCommand, ProposalQuestion } from "@/lib/work/board/plan-command";
import { instantAt } from "@/lib/work/site-time";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

const DAY = "2026-11-25"; // a Wednesday
const NOW = new Date("2026-11-25T10:00:00Z"); // three in the morning there
const at = (clock: string) => instantAt(`${DAY}T${clock}`, "America/Denver")!;

let database: TwoCompanies;
let ours: Planted;
let tech: string;
let visit: string;
beforeAll(async () => {
  database = await twoCompanies();
  ours = database.alder;
  tech = ours.technician.personId;
  await withTenant(ours.company, async (tx) => {
    await tx.weeklyShift.create({ data: { personId: tech, weekday: 3, beginsMinute: 480, endsMinute: 1020 } });
    await tx.certificate.create({ data: { id: uuidv7(), personId: tech, kind: "us-universal" } });
  });
});
afterAll(() => database.drop());
beforeEach(async () => {
  await withTenant(ours.company, async (tx) => {
    await tx.visit.updateMany({ where: {}, data: { state: "cancelled" } });
    const plan = { window: null, plannedStart: null, plannedMinutes: 60, people: [] };
    const made = await planVisit(tx, ours.workOrderId, plan);
    visit = made.ok ? made.value : "";
  });
});

class Refused extends Error {
  constructor(readonly outcome: unknown) {
    super("refused");
  }
}
const command = async (asked: PlanCommand, who = ours.dispatcher) => {
  try {
    return await withTenant(who.companyId, async (tx) => {
      const outcome = await changePlan(tx, who, asked, NOW);
      if (!outcome.ok) throw new Refused(outcome);
      return outcome;
    });
  } catch (problem) {
    if (problem instanceof Refused) return problem.outcome as { ok: false; error: { code: string; words?: string } };
    throw problem;
  }
};
const placeAt = (clock: string, given: Partial<Extract<PlanCommand, { do: "place" }>> = {}) =>
  command({
    do: "place",
    kind: "visit",
    id: visit,
    version: 1,
    personId: tech,
    fromPersonId: null,
    startMs: at(clock).getTime(),
    anyway: false,
    ...given,
  });
const stored = () =>
  withTenant(ours.company, (tx) => tx.visit.findFirstOrThrow({ where: { id: visit }, include: { people: true } }));
const count = (subjectId: string) => withTenant(ours.company, (tx) => tx.officeEvent.count({ where: { subjectId } }));

describe("placing", () => {
  test("writes start and person with an event, and what it was before", async () => {
    const placed = await placeAt("10:00");
    expect(placed).toMatchObject({ ok: true });
    const row = await stored();
    expect(row.plannedStart).toEqual(at("10:00"));
    expect(row.people.map(({ personId }) => personId)).toEqual([tech]);
    const [event] = await withTenant(ours.company, (tx) => tx.officeEvent.findMany({ where: { subjectId: visit } }));
    expect(event).toMatchObject({ what: "placed", detail: { before: { plannedStart: null, people: [] }, version: 2 } });
  });

  test("what does not fit is judged again by the server: asked about, or refused whatever is said", async () => {
    expect(await placeAt("07:00")).toMatchObject({ ok: false, error: { code: "does-not-fit", mayAnyway: true } });
    expect((await stored()).plannedStart).toBeNull();
    expect(await placeAt("07:00", { anyway: true })).toMatchObject({ ok: true });
    const nobody = ours.supervisor.personId;
    expect(await placeAt("10:00", { version: 2, personId: nobody, anyway: true })).toMatchObject({
      error: { code: "does-not-fit", mayAnyway: false },
    });
  });

  test("who was second is told by whom and to what, and nothing is overwritten", async () => {
    await placeAt("10:00");
    const second = await placeAt("14:00");
    expect(second).toMatchObject({ ok: false, error: { code: "changed-meanwhile" } });
    expect((second as { error: { words: string } }).error.words).toMatch(
      /dispatcher of alder placed it at .*; now it starts at 10:00 with technician of alder\./,
    );
    expect((await stored()).plannedStart).toEqual(at("10:00"));
  });

  test("two at once on the same hour of one person: one of them is asked", async () => {
    const other = await withTenant(ours.company, (tx) =>
      planVisit(tx, ours.workOrderId, { window: null, plannedStart: null, plannedMinutes: 60, people: [] }),
    );
    const outcomes = await Promise.all([placeAt("10:00"), placeAt("10:30", { id: other.ok ? other.value : "" })]);
    expect(outcomes.map(({ ok }) => ok).sort()).toEqual([false, true]);
  });

  test("a call gets its order and visit in one go, and loses both when it is taken back", async () => {
    const { customerId, siteId, equipmentId, dispatcher } = ours;
    const call = (await withTenant(ours.company, (tx) =>
      takeCall(
        tx,
        { customerId, siteId, equipmentId, caller: "", symptom: "warm", urgency: "today" },
        dispatcher.personId,
      ),
    ))!;
    const placed = await placeAt("10:00", { kind: "call", id: call, version: 0 });
    const state = () => withTenant(ours.company, (tx) => tx.serviceCall.findFirstOrThrow({ where: { id: call } }));
    expect((await state()).state).toBe("ordered");
    if (!placed.ok) throw new Error("not placed");
    expect(await command({ do: "undo", change: placed.value.change })).toMatchObject({ ok: true });
    expect((await state()).state).toBe("new");
  });

  test("another company's visit is no visit", async () => {
    const theirs = database.birch.dispatcher;
    const asked = { do: "take-off", id: visit, version: 1 } as const;
    expect(await command(asked, theirs)).toEqual({ ok: false, error: { code: "not-found" } });
  });
});

describe("undo", () => {
  test("puts everything back, and can itself be taken back", async () => {
    const placed = await placeAt("10:00");
    if (!placed.ok) throw new Error("not placed");
    const undone = await command({ do: "undo", change: placed.value.change });
    expect(undone).toMatchObject({ ok: true });
    expect((await stored()).plannedStart).toBeNull();
    if (!undone.ok) throw new Error("not undone");
    await command({ do: "undo", change: undone.value.change });
    expect((await stored()).plannedStart).toEqual(at("10:00"));
    expect(await count(visit)).toBe(3);
  });

  test("is refused where somebody changed it since", async () => {
    const placed = await placeAt("10:00");
    await command({ do: "lengthen", id: visit, version: 2, minutes: 90 });
    if (!placed.ok) throw new Error("not placed");
    expect(await command({ do: "undo", change: placed.value.change })).toMatchObject({
      error: { code: "changed-meanwhile" },
    });
    expect((await stored()).plannedMinutes).toBe(90);
  });

  test("an absence is marked, seen on the board and taken back", async () => {
    const [fromMs, toMs] = [at("00:00").getTime(), at("23:00").getTime()];
    const away = await command({ do: "away", personId: tech, fromMs, toMs });
    const board = () => withTenant(ours.company, (tx) => readBoard(tx, [DAY], ours.dispatcher, NOW));
    expect((await board()).people[0]!.days[0]).toMatchObject({ shift: null, absent: "is away" });
    if (!away.ok) throw new Error("not marked");
    await command({ do: "undo", change: away.value.change });
    expect((await board()).people[0]!.days[0]!.shift).not.toBeNull();
  });
});

describe("on the phone", () => {
  test("the windows offered are those that can be kept, and somebody to go", async () => {
    const asked = { siteId: ours.siteId, circuitId: null, minutes: 60, urgency: "today" };
    const offers = await offerWindows(ours.dispatcher, asked, NOW);
    expect(offers!.map(({ day, from, to }) => `${day} ${from} ${to}`)).toEqual([
      `${DAY} 08:00 10:00`,
      `${DAY} 10:00 12:00`,
      `${DAY} 12:00 14:00`,
      `${DAY} 14:00 16:00`,
    ]);
    expect(offers![0]!.personId).toBe(tech);
    await withTenant(ours.company, (tx) =>
      planVisit(tx, ours.workOrderId, {
        window: { from: at("09:30"), to: at("09:31") },
        plannedStart: at("09:30"),
        plannedMinutes: 120,
        people: [tech],
      }),
    );
    const left = await offerWindows(ours.dispatcher, { ...asked, minutes: 120 }, NOW);
    expect(left!.map(({ from }) => from)).toEqual(["10:00", "12:00", "14:00"]);
    expect(await offerWindows(database.birch.dispatcher, asked, NOW)).toBeNull();
  });

  test("a customer of the same name or telephone is found, however written", async () => {
    const like = (name: string, phone: string) =>
      withTenant(ours.company, (tx) => findLikeCustomer(tx, { name, phone }));
    expect(await like("customer  of-ALDER", "")).toMatchObject({ id: ours.customerId });
    expect(await like("Somebody else", "")).toBeNull();
    const elsewhere = { name: "Customer of alder", phone: "" };
    expect(await withTenant(database.birch.company, (tx) => findLikeCustomer(tx, elsewhere))).toBeNull();
  });
});

describe("what has begun", () => {
  test("stays where it is, but may take longer", async () => {
    await placeAt("10:00");
    await withTenant(ours.company, (tx) => moveVisit(tx, visit, "on-site", ours.technician.personId));
    expect(await placeAt("14:00", { version: 3 })).toMatchObject({ error: { code: "does-not-fit", mayAnyway: false } });
    expect(await command({ do: "take-off", id: visit, version: 3 })).toMatchObject({ ok: false });
    expect(await command({ do: "lengthen", id: visit, version: 3, minutes: 180 })).toMatchObject({ ok: true });
    expect((await stored()).plannedMinutes).toBe(180);
  });
});

describe("a proposal", () => {
  const ask = async (question: ProposalQuestion) => {
    const proposed = await proposeChanges(ours.dispatcher, question, NOW);
    if (!proposed.ok) throw new Error(proposed.error.code);
    return proposed.value;
  };

  test("finds a place for one visit and moves nothing else", async () => {
    const other = await withTenant(ours.company, (tx) =>
      planVisit(tx, ours.workOrderId, { window: null, plannedStart: at("10:00"), plannedMinutes: 60, people: [tech] }),
    );
    const { differences, basis } = await ask({ want: "place", day: DAY, kind: "visit", id: visit });
    expect(differences.map(({ id, kind, to }) => [id, kind, to?.people])).toEqual([[visit, "new", [tech]]]);
    const { startMs } = differences[0]!.to!;
    const [from, to] = [at("10:00").getTime(), at("11:00").getTime()];
    expect(startMs + 3_600_000 <= from || startMs >= to).toBe(true);
    expect(basis.map(({ id }) => id).sort()).toEqual([visit, other.ok && other.value].sort());
    const moves = differences.map(({ id, version }) => ({
      kind: "visit" as const,
      id,
      version,
      people: [tech],
      startMs,
    }));
    expect(await command({ do: "accept", basis: [...basis], moves })).toMatchObject({ ok: true });
    expect((await stored()).plannedStart!.getTime()).toBe(startMs);
  });

  test("takes a pressing call along, and says why what cannot be done stays open", async () => {
    const { customerId, siteId, equipmentId, dispatcher } = ours;
    const call = (await withTenant(ours.company, (tx) =>
      takeCall(
        tx,
        { customerId, siteId, equipmentId, caller: "", symptom: "hot", urgency: "danger" },
        dispatcher.personId,
      ),
    ))!;
    await withTenant(ours.company, (tx) =>
      planVisit(tx, ours.workOrderId, {
        window: { from: at("05:00"), to: at("05:30") },
        plannedStart: null,
        plannedMinutes: 60,
        people: [],
      }),
    );
    const { differences, open } = await ask({ want: "rest", day: DAY });
    expect(differences.find(({ id }) => id === call)).toMatchObject({ kind: "new", visit: "call" });
    expect(open).toHaveLength(1);
    expect(open[0]!.words).toMatch(/can be there between 05:00 and 05:30/);
    await withTenant(ours.company, (tx) =>
      tx.serviceCall.updateMany({ where: { id: call }, data: { state: "cancelled" } }),
    );
  });

  test("is written whole where the day is as it was seen, else not at all", async () => {
    const basis = [{ id: visit, version: 1 }];
    const moves = [{ kind: "visit" as const, id: visit, version: 1, people: [tech], startMs: at("11:00").getTime() }];
    await command({ do: "lengthen", id: visit, version: 1, minutes: 90 });
    expect(await command({ do: "accept", basis, moves })).toMatchObject({ error: { code: "changed-meanwhile" } });
    expect((await stored()).plannedStart).toBeNull();
    const now = { basis: [{ id: visit, version: 2 }], moves: [{ ...moves[0]!, version: 2 }] };
    expect(await command({ do: "accept", ...now })).toMatchObject({ ok: true, value: { words: "1 change accepted" } });
    expect((await stored()).plannedStart).toEqual(at("11:00"));
  });
});
