import { describe, expect, test } from "vitest";
import type { CriteriaRow, LogEntry } from "@/lib/hvac/log/entry";
import { entryWire } from "@/lib/hvac/log/schema";
import { STEP_IDS, type StepId } from "@/lib/hvac/log/step";
import type { JobState } from "@/lib/hvac/procedure/state";
import type { EntryId, TraceId } from "@/lib/ids";
import { closingDigest } from "@/lib/sync/digest";
import { mergeEntries, unstamped, wireOf } from "@/lib/sync/protocol";
import { circuit } from "../procedure/evidence-samples";
import { standIns, stepOf, supervisorTablet, Tablet } from "../procedure/job-log";

const codes = (list: readonly { readonly code: string }[]) => list.map(({ code }) => code);
const settledBy = (state: JobState, step: StepId) => stepOf(state, step).settledBy;
const sweeps = [0, 1].map(() => ({
  pulledToMicron: 1500,
  brokenWith: "nitrogen" as const,
  brokenToKPaAbs: 110,
  heldMinutes: 10,
}));

/** A job at the point where the next step is `until`'s successor. */
function jobUpTo(until: StepId): Tablet {
  const tablet = new Tablet(1);
  tablet.open("compressor_change");
  tablet.recordAll("make_safe", until);
  return tablet;
}

describe("entries and their order", () => {
  test("[L1] an entry carries who, where, after what and in which form, and no key beside", () => {
    const tablet = jobUpTo("make_safe");
    const wire = wireOf(tablet.view.at(-1)!);
    expect(entryWire.safeParse(wire).success).toBe(true);
    for (const key of ["stamp", "roles", "tenant"]) {
      expect(entryWire.safeParse({ ...wire, [key]: ["supervisor"] }).success).toBe(false);
    }
    expect(entryWire.safeParse({ ...wire, body: { ...wire.body, roles: ["supervisor"] } }).success).toBe(false);
    expect(entryWire.safeParse({ ...wire, id: "0190b8a0-0000-4000-8000-000000000001" }).success).toBe(false); // not v7
    expect(entryWire.safeParse({ ...wire, seq: 0 }).success).toBe(false);
    expect(entryWire.safeParse({ ...wire, deviceAt: "yesterday" }).success).toBe(false);
  });

  test("[L2] a resent entry changes nothing; two contents under one id are a question for a person", () => {
    const tablet = jobUpTo("records");
    const state = tablet.state();
    const again = mergeEntries(
      tablet.view,
      tablet.view.map(({ ...copy }) => copy),
    );
    expect(again).toEqual({ entries: tablet.view, conflicts: [] });
    const last = tablet.view.at(-1)!;
    const forged = { ...last, deviceAt: "2026-11-25T23:00:00.000Z" };
    tablet.view = [...tablet.view, forged];
    expect(codes(tablet.state().missingForClose)).toContain("id-used-twice");
    expect(state.missingForClose).toEqual([]);
  });

  test("[L3] the order is what was seen, whatever the clock says", () => {
    const tablet = jobUpTo("evacuate");
    tablet.record("hold");
    tablet.write({ kind: "circuit-opened", body: { why: "leak at the drier" } }, { at: "2001-01-01T00:00:00.000Z" });
    expect(stepOf(tablet.state(), "hold").invalidated[0]?.code).toBe("circuit-opened");
  });

  test("[L3] a writer has seen its own earlier entries, whatever heads it names", () => {
    const tablet = jobUpTo("evacuate");
    tablet.openCircuit();
    const later = tablet.record("hold");
    tablet.view = tablet.view.map((entry) => (entry.id === later.id ? { ...entry, heads: [] } : entry));
    expect(tablet.state().reviews).toEqual([]);
  });

  test("[L4] any order of arrival folds to the same state", () => {
    const tablet = jobUpTo("records");
    const state = JSON.stringify(tablet.state());
    tablet.view = [...tablet.view].reverse();
    expect(JSON.stringify(tablet.state())).toBe(state);
  });

  test("[L5] a hold passed beside an opening is for a person to judge, not a pass", () => {
    const a = jobUpTo("evacuate");
    const b = new Tablet(2);
    b.see(a);
    a.record("hold");
    b.openCircuit();
    a.see(b);
    const hold = stepOf(a.state(), "hold");
    expect(hold.status).toBe("needs-you");
    expect(codes(a.state().reviews)).toContain("order-unknown");
  });

  test("[L5] two records side by side that disagree are for a person to judge; recorded again, it is settled", () => {
    const a = jobUpTo("evacuate");
    const b = new Tablet(2);
    b.see(a);
    a.record("hold");
    b.record("hold", { note: "verdict unproven" });
    a.see(b);
    expect(stepOf(a.state(), "hold").status).toBe("needs-you");
    a.record("hold");
    expect(stepOf(a.state(), "hold").status).toBe("proven");
  });

  test("[L5] two refrigerants identified side by side keep the job open until one is identified again", () => {
    const a = jobUpTo("performance");
    const b = new Tablet(2);
    b.see(a);
    const identified = (tablet: Tablet, refrigerant: string) =>
      tablet.write({
        kind: "refrigerant-identified",
        body: { refrigerant: { ...circuit.refrigerant, refrigerant } as typeof circuit.refrigerant, how: "identifier" },
      });
    identified(a, "R-410A");
    identified(b, "R-22");
    a.see(b);
    expect(codes(a.state().missingForClose)).toContain("refrigerant-contested");
    identified(a, "R-410A");
    expect(codes(a.state().missingForClose)).not.toContain("refrigerant-contested");
  });

  test("[L6] nothing closes while an entry named as seen has not arrived, or a number is skipped", () => {
    const a = jobUpTo("make_safe");
    const b = new Tablet(2);
    b.see(a);
    const note = b.write({ kind: "note", body: { text: "gate code", photos: [] } });
    a.see(b);
    a.recordAll("recover", "records");
    const whole = a.view;
    a.view = whole.filter(({ id }) => id !== note.id);
    expect(a.state().awaited).toEqual([note.id]);
    expect(codes(a.state().missingForClose)).toEqual(["entries-awaited"]);
    a.view = whole;
    expect(a.state().missingForClose).toEqual([]);
    a.view = whole.filter((entry) => !(entry.kind === "step-recorded" && entry.body.step === "hold"));
    expect(a.state().gaps).toHaveLength(1);
    expect(codes(a.state().missingForClose)).toContain("entries-awaited");
  });

  test("[L6] entries that claim to have seen each other fit no order and have no effect", () => {
    const tablet = jobUpTo("records");
    const b = new Tablet(2);
    const c = new Tablet(3);
    const one = b.write({ kind: "note", body: { text: "one", photos: [] } });
    const two = c.write({ kind: "note", body: { text: "two", photos: [] } });
    tablet.view = [...tablet.view, { ...one, heads: [two.id] }, { ...two, heads: [one.id] }];
    expect(codes(tablet.state().withoutEffect)).toEqual(["order-impossible", "order-impossible"]);
    expect(codes(tablet.state().missingForClose)).toContain("order-impossible");
  });

  test("[L20] a sequence number given out twice is an alarm, and its entries stand side by side", () => {
    const a = jobUpTo("evacuate");
    const tab = new Tablet(1);
    tab.view = a.view;
    const hold = a.record("hold");
    const opened = tab.openCircuit();
    const twin: LogEntry = { ...opened, id: "0190b8a0-0000-7000-8000-00000000ffff" as EntryId };
    a.view = mergeEntries(a.view, [twin]).entries;
    expect(twin.seq).toBe(hold.seq);
    expect(codes(a.state().alarms)).toContain("sequence-forked");
    expect(stepOf(a.state(), "hold").status).toBe("needs-you");
  });
});

describe("corrections", () => {
  test("[L7] a correction counts in the place of what it corrects", () => {
    const tablet = jobUpTo("open_repair");
    const evacuation = jobUpToEvacuationWithCores(tablet);
    tablet.record("hold");
    tablet.correct(evacuation, "evacuate", { coresOut: false });
    expect(stepOf(tablet.state(), "hold").status).toBe("proven");
    expect(stepOf(tablet.state(), "evacuate").status).toBe("proven");
  });
  function jobUpToEvacuationWithCores(tablet: Tablet) {
    tablet.recordAll("pressure_test", "leak_check");
    return tablet.record("evacuate");
  }

  test("[L7] a correction of something unseen, of another kind or of nothing changes nothing", () => {
    const a = jobUpTo("make_safe");
    const b = new Tablet(2);
    b.see(a);
    const recovery = a.record("recover");
    b.correct(recovery, "recover", { note: "verdict unproven" });
    b.correct(a.view.find(({ kind }) => kind === "job-opened")!, "make_safe");
    b.correct({ ...recovery, id: "0190b8a0-0000-7000-8000-00000000eeee" as EntryId }, "recover");
    a.see(b);
    expect(codes(a.state().withoutEffect).sort()).toEqual([
      "correction-of-other-kind",
      "correction-target-missing",
      "correction-target-unseen",
    ]);
    expect(stepOf(a.state(), "recover").status).toBe("proven");
  });

  test("[L7] two corrections side by side are for a person to judge; a third that saw both settles it", () => {
    const a = jobUpTo("make_safe");
    const recovery = a.record("recover");
    const b = new Tablet(2);
    b.see(a);
    a.correct(recovery, "recover", { waitedMinutes: 11 });
    b.correct(recovery, "recover", { waitedMinutes: 12 });
    a.see(b);
    expect(stepOf(a.state(), "recover").status).toBe("needs-you");
    a.correct(recovery, "recover", { waitedMinutes: 11 });
    expect(stepOf(a.state(), "recover").status).toBe("proven");
  });

  test("[L8] readings from an instrument stay; typed ones may be corrected", () => {
    const readings = [
      { s: 0, micron: 310 },
      { s: 600, micron: 330 },
    ];
    const tablet = jobUpTo("evacuate");
    const traceId = "0190b8a0-1111-7000-8000-000000000001" as TraceId;
    const trace = { traceId, sampleCount: 2, digest: "a".repeat(64) };
    const hold = tablet.record("hold", { source: "bluetooth", record: { kept: "trace", trace } });
    tablet.correct(hold, "hold", { source: "typed", record: { kept: "inline", readings } });
    expect(codes(tablet.state().withoutEffect)).toEqual(["raw-readings-stay"]);
    const typed = tablet.record("hold", { source: "typed" });
    tablet.correct(typed, "hold", { source: "typed", record: { kept: "inline", readings } });
    expect(codes(tablet.state().withoutEffect)).toEqual(["raw-readings-stay"]);
    expect(stepOf(tablet.state(), "hold").status).toBe("proven");
  });

  test("[L8] a hold is judged from its own trace or not at all", () => {
    const tablet = jobUpTo("evacuate");
    const traceId = "0190b8a0-1111-7000-8000-000000000001" as TraceId;
    const trace = { traceId, sampleCount: 2, digest: "a".repeat(64) };
    tablet.record("hold", { source: "http", record: { kept: "trace", trace } });
    const vacuum = [
      { s: 0, micron: 310 },
      { s: 600, micron: 330 },
    ];
    const codesWith = (digest: string | null) =>
      codes(
        stepOf(
          tablet.state({ traces: new Map(digest === null ? [] : [[traceId, { digest, sampleCount: 2, vacuum }]]) }),
          "hold",
        ).missing,
      );
    expect(codesWith(null)).toContain("trace-not-here");
    expect(codesWith("b".repeat(64))).toContain("trace-differs");
    expect(codesWith("a".repeat(64))).toEqual([]);
  });

  test.each(["recover", "pressure_test", "hold"] as const)(
    "[L9] correcting away a failed %s reopens the step and never passes it",
    (step) => {
      const tablet = jobUpTo(STEP_IDS[STEP_IDS.indexOf(step) - 1]!);
      const verdict = { recover: "not-reached", pressure_test: "leaking", hold: "leaking" }[step];
      const failed = tablet.record(step, { note: `verdict ${verdict}` });
      expect(stepOf(tablet.state(), step).status).toBe("refused");
      tablet.correct(failed, step);
      expect(stepOf(tablet.state(), step).status).toBe("cannot-say");
      expect(codes(stepOf(tablet.state(), step).missing)).toContain("test-corrected-away");
      expect(tablet.state().openStep).toBe(step);
      tablet.record(step);
      expect(stepOf(tablet.state(), step).status).toBe("proven");
      expect(tablet.state().correctedFailures).toEqual([failed.id]);
    },
  );

  test("[L10] an opening cannot be corrected away", () => {
    const tablet = jobUpTo("hold");
    const opened = tablet.openCircuit();
    tablet.write({
      kind: "circuit-opened",
      body: { why: "not opened after all" },
      supersedes: { entry: opened.id, why: "pressed by mistake" },
    });
    expect(codes(tablet.state().withoutEffect)).toEqual(["not-correctable"]);
    expect(settledBy(tablet.state(), "hold")).toBeNull();
  });
});

describe("what throws a proof away", () => {
  test("[L10] opening an empty circuit throws away everything from the repair on, and leaves recovery", () => {
    const tablet = jobUpTo("hold");
    const opened = tablet.openCircuit();
    const state = tablet.state();
    expect(settledBy(state, "recover")).toBe("record");
    for (const step of ["open_repair", "pressure_test", "leak_check", "evacuate", "hold"] as const) {
      expect(stepOf(state, step).invalidated.at(-1)).toMatchObject({ by: opened.id, code: "circuit-opened" });
    }
    expect(state.openStep).toBe("open_repair");
  });

  test("[L10] opening a charged circuit asks for recovery again, and is an alarm until it was made", () => {
    const tablet = jobUpTo("records");
    tablet.openCircuit();
    expect(tablet.state().openStep).toBe("recover");
    expect(codes(tablet.state().alarms)).not.toContain("opened-before-recovery"); // recovered before the first opening
    tablet.openCircuit();
    tablet.recordAll("recover", "records");
    expect(tablet.state().missingForClose).toEqual([]);
  });

  test.each([
    ["pressure_test", "verdict leaking", "open_repair"],
    ["pressure_test", "verdict over-pressure", "pressure_test"],
    ["hold", "verdict leaking", "pressure_test"],
    ["hold", "verdict wet-and-leaking", "pressure_test"],
    ["hold", "verdict wet", "evacuate"],
  ] as const)("[L11] a %s with %s goes back to %s", (step, note, back) => {
    const tablet = jobUpTo(STEP_IDS[STEP_IDS.indexOf(step) - 1]!);
    tablet.record(step, { note });
    expect(tablet.state().openStep).toBe(back);
    expect(stepOf(tablet.state(), step).status).toBe("refused");
    expect(stepOf(tablet.state(), "recover").status).toBe("proven");
    const from = STEP_IDS.indexOf(back);
    for (const again of STEP_IDS.slice(from)) {
      tablet.record(again, again === "evacuate" ? { sweeps } : {});
    }
    expect(tablet.state().missingForClose).toEqual([]);
  });

  test("[L11] a joint found leaking goes back to the repair", () => {
    const tablet = jobUpTo("pressure_test");
    const joint = "suction stub";
    const joints = [
      { joint, method: "bubbles", instrument: "soap", sensitivityGramPerYear: null, result: "leaking" },
    ] as const;
    tablet.record("leak_check", { joints: [...joints] });
    expect(tablet.state().openStep).toBe("open_repair");
    expect(tablet.state().next.code).toBe("repair-leak");
  });

  test("[L11] after a wet hold one more pull is not enough: three evacuations are asked for", () => {
    const tablet = jobUpTo("evacuate");
    tablet.record("hold", { note: "verdict wet" });
    expect(tablet.state().next.code).toBe("dry-again");
    tablet.record("evacuate");
    expect(codes(stepOf(tablet.state(), "evacuate").missing)).toContain("sweeps-missing");
    tablet.record("evacuate", { sweeps });
    expect(tablet.state().openStep).toBe("hold");
    expect(stepOf(tablet.state(), "hold").status).toBe("working");
  });

  test("[L11] nitrogen put in for the night, or air in the circuit, asks for the evacuation again", () => {
    const left = jobUpTo("hold");
    left.write({ kind: "left-for-today", body: { holding: "nitrogen", tag: "T7", note: "charge tomorrow" } });
    expect(left.state().status).toBe("left-for-today");
    expect(left.state().openStep).toBe("evacuate");
    left.write({ kind: "work-resumed", body: { note: null } });
    expect(left.state().status).toBe("open");
    const air = jobUpTo("hold");
    air.record("break_and_charge", { brokenWith: "air" });
    expect(air.state().openStep).toBe("evacuate");
    expect(codes(air.state().alarms)).toContain("vacuum-broken-to-air");
  });

  test("[L12] a later, looser criterion does not pass what failed; a later, tighter one is asked for too", () => {
    const row = (maxFinalMicron: number, origin: CriteriaRow["origin"]): CriteriaRow => ({
      rowId: `${origin} ${maxFinalMicron}`,
      origin,
      source: "sheet",
      criteria: {
        step: "hold",
        values: {
          targetMicron: 500,
          holdMinutes: 10,
          maxFinalMicron,
          maxSteadyRiseMicronPerMin: 5,
          failAtMicron: null,
        },
      },
    });
    const replace = (tablet: Tablet, one: CriteriaRow) =>
      tablet.write({ kind: "criteria-replaced", body: { row: one, document: "manual" } });
    /** A hold that heads for 1200 micron. */
    const hold = standIns.hold;
    const judges = {
      ...standIns,
      hold: (question: Parameters<typeof hold>[0]) => {
        const fits = question.criteria.maxFinalMicron >= 1200;
        return {
          ...hold(question),
          outcome: fits ? ("passed" as const) : ("failed" as const),
          verdict: fits ? "dry-and-tight" : "wet",
        };
      },
    };
    const loosened = jobUpTo("evacuate");
    loosened.record("hold");
    replace(loosened, row(2000, "maker"));
    expect(stepOf(loosened.state({ judges }), "hold").status).toBe("refused");
    const first = jobUpTo("evacuate");
    replace(first, row(2000, "maker"));
    first.record("hold");
    expect(stepOf(first.state({ judges }), "hold").status).toBe("proven");
    replace(first, row(700, "company"));
    expect(stepOf(first.state({ judges }), "hold").status).toBe("refused");
    replace(first, row(9000, "law"));
    expect(codes(first.state().withoutEffect)).toEqual(["criteria-not-allowed"]);
  });

  test("[L12] knowing the refrigerant later completes a recovery that could not be judged", () => {
    const tablet = new Tablet(1);
    tablet.open("compressor_change", { circuit: { ...circuit, refrigerant: { state: "unknown" } } });
    const judges = {
      ...standIns,
      recovery: (question: Parameters<typeof standIns.recovery>[0]) => {
        const known = question.circuit?.refrigerant.state === "identified";
        return { ...standIns.recovery(question), outcome: known ? ("passed" as const) : ("unproven" as const) };
      },
    };
    tablet.record("recover", { flammable: { cylinderGrounded: true, machineRatedForClass: true } });
    expect(stepOf(tablet.state({ judges }), "recover").status).toBe("cannot-say");
    tablet.write({ kind: "refrigerant-identified", body: { refrigerant: circuit.refrigerant, how: "label found" } });
    expect(stepOf(tablet.state({ judges }), "recover").status).toBe("proven");
  });

  test("[L13] a second opening entry is kept and has no effect", () => {
    const tablet = jobUpTo("make_safe");
    const second = tablet.open("opened_wet_burnout");
    expect(tablet.state().kind).toBe("compressor_change");
    expect(tablet.state().withoutEffect).toMatchObject([{ entry: second.id, code: "job-already-opened" }]);
  });
});

describe("roles and overrides", () => {
  test("[L14] an override counts with the server's stamp of a supervisor, and only then", () => {
    const tablet = jobUpTo("break_and_charge");
    const ask = tablet.ask("close");
    expect(stepOf(tablet.state(), "close").status).toBe("needs-you");
    const peer = new Tablet(3);
    peer.see(tablet);
    peer.answer(ask, true);
    const boss = supervisorTablet();
    boss.see(tablet);
    const offline = boss.answer(ask, true, { offline: true });
    tablet.see(peer, boss);
    expect(settledBy(tablet.state(), "close")).toBeNull();
    expect(codes(tablet.state().withoutEffect).sort()).toEqual(["answer-not-supervisor", "answer-waits"]);
    const receivedAt = "2026-11-25T12:00:00.000Z";
    const stamp = { receivedSeq: 77, receivedAt, roles: ["supervisor" as const] };
    tablet.view = mergeEntries(tablet.view, [{ ...offline, stamp }]).entries;
    expect(settledBy(tablet.state(), "close")).toBe("override");
    expect(stepOf(tablet.state(), "close").status).toBe("cannot-say");
  });

  test("[L14] what a device sends has no stamp, whatever it claims", () => {
    const tablet = jobUpTo("make_safe");
    const claimed = {
      ...tablet.view.at(-1)!,
      stamp: { receivedSeq: 1, receivedAt: "2026-11-25T12:00:00.000Z", roles: ["supervisor"] },
    };
    expect(unstamped(claimed as LogEntry).stamp).toBeNull();
    expect(entryWire.safeParse(claimed).success).toBe(false);
  });

  test("[L14] a refused override settles nothing, and two supervisors who disagree settle nothing either", () => {
    const tablet = jobUpTo("break_and_charge");
    const ask = tablet.ask("close");
    const [one, other] = [supervisorTablet(7), supervisorTablet(8)];
    one.see(tablet);
    other.see(tablet);
    one.answer(ask, false);
    tablet.see(one);
    expect(stepOf(tablet.state(), "close").override).toBe("refused");
    other.answer(ask, true);
    tablet.see(other);
    expect(tablet.state().overrides[0]?.answer).toBe("contested");
    expect(settledBy(tablet.state(), "close")).toBeNull();
  });

  test.each([
    ["recover", "verdict not-reached", "ask-not-allowed"],
    ["recover", "verdict unproven", "ask-not-allowed"],
    ["pressure_test", "verdict leaking", "override-barred"],
    ["hold", "verdict leaking", "override-barred"],
    ["hold", "verdict wet-and-leaking", "override-barred"],
  ] as const)("[L15] %s with %s cannot be overridden", (step, note, code) => {
    const tablet = jobUpTo(STEP_IDS[STEP_IDS.indexOf(step) - 1]!);
    tablet.record(step, { note });
    const boss = supervisorTablet();
    const ask = tablet.ask(step);
    boss.see(tablet);
    boss.answer(ask, true);
    tablet.see(boss);
    expect(settledBy(tablet.state(), step)).toBeNull();
    expect(codes(tablet.state().withoutEffect)).toContain(code);
  });

  test("[L15] a wet or unproven hold can be overridden; opening the circuit takes it away again", () => {
    const tablet = jobUpTo("evacuate");
    tablet.record("hold", { note: "verdict unproven" });
    const boss = supervisorTablet();
    const ask = tablet.ask("hold");
    boss.see(tablet);
    boss.answer(ask, true);
    tablet.see(boss);
    expect(settledBy(tablet.state(), "hold")).toBe("override");
    tablet.openCircuit();
    expect(settledBy(tablet.state(), "hold")).toBeNull();
    expect(codes(tablet.state().withoutEffect)).toContain("override-overtaken");
  });

  test("[L15] correcting a failed test away does not open the way to an override", () => {
    const tablet = jobUpTo("open_repair");
    const failed = tablet.record("pressure_test", { note: "verdict leaking" });
    tablet.correct(failed, "pressure_test", { note: "verdict unproven" });
    expect(stepOf(tablet.state(), "pressure_test").override).toBe("barred");
  });
});

describe("closing", () => {
  test("[L16] a closing carries heads and digest of all it closes on; else it has no effect", () => {
    const tablet = jobUpTo("records");
    const heads = tablet.state().heads;
    const attempt = (body: { heads: EntryId[]; digest: string }) => {
      const copy = new Tablet(2);
      copy.see(tablet);
      copy.write({ kind: "job-closed", body });
      return copy.state();
    };
    const digest = closingDigest(tablet.view.map(wireOf), heads);
    expect(attempt({ heads: [...heads], digest }).status).toBe("closed");
    expect(codes(attempt({ heads: [...heads], digest: "0".repeat(64) }).withoutEffect)).toEqual([
      "close-digest-differs",
    ]);
    const other = tablet.view[0]!.id;
    expect(codes(attempt({ heads: [other], digest }).withoutEffect)).toEqual(["close-heads-differ"]);
    const early = jobUpTo("hold");
    early.close();
    expect(early.state().status).toBe("open");
    expect(codes(early.state().withoutEffect)).toEqual(["close-not-proven"]);
  });

  test("[L16] changing one entry afterwards breaks the digest", () => {
    const tablet = jobUpTo("records");
    tablet.close();
    expect(tablet.state().status).toBe("closed");
    tablet.view = tablet.view.map((entry) =>
      entry.kind === "step-recorded" && entry.body.step === "hold"
        ? ({
            ...entry,
            body: { ...entry.body, evidence: { ...entry.body.evidence, wallTemperatureC: 22 } },
          } as LogEntry)
        : entry,
    );
    expect(tablet.state().status).toBe("open");
    expect(codes(tablet.state().withoutEffect)).toEqual(["close-digest-differs"]);
  });

  test("[L17] an entry that comes beside or after a closing reopens the job and makes the certificate stale", () => {
    const tablet = jobUpTo("records");
    const late = new Tablet(2);
    late.see(tablet);
    tablet.close();
    expect(tablet.state()).toMatchObject({ status: "closed", certificate: "valid" });
    const note = late.write({ kind: "note", body: { text: "forgot the cap", photos: [] } });
    tablet.see(late);
    expect(tablet.state()).toMatchObject({ status: "open", certificate: "stale", reopenedBy: [note.id] });
    expect(codes(tablet.state().alarms)).toEqual(["entry-after-close"]);
    tablet.close();
    expect(tablet.state()).toMatchObject({ status: "closed", certificate: "valid", reopenedBy: [] });
  });

  test("[L18] what happened out of turn is recorded, raises an alarm for good and does not count", () => {
    const tablet = new Tablet(1);
    tablet.open("compressor_change");
    tablet.recordAll("make_safe", "make_safe");
    tablet.openCircuit();
    tablet.record("evacuate");
    tablet.record("break_and_charge");
    const out = codes(tablet.state().alarms);
    expect(out).toEqual(["opened-before-recovery", "evacuated-before-tests", "charged-before-hold"]);
    expect(codes(stepOf(tablet.state(), "evacuate").missing)).toContain("before-its-turn");
    tablet.recordAll("recover", "records");
    expect(codes(tablet.state().alarms)).toEqual(expect.arrayContaining(out));
    expect(tablet.state().missingForClose).toEqual([]);
  });

  test("[L21] a verdict kept from its day stands though the judges have changed since", () => {
    const tablet = jobUpTo("records");
    tablet.close();
    const strict = {
      ...standIns,
      hold: (question: Parameters<typeof standIns.hold>[0]) => ({
        ...standIns.hold(question),
        outcome: "unproven" as const,
      }),
    };
    const hold = tablet.view.find((entry) => entry.kind === "step-recorded" && entry.body.step === "hold")!;
    const kept = stepOf(tablet.state(), "hold").verdict!;
    expect(tablet.state({ judges: strict }).status).toBe("open");
    expect(tablet.state({ judges: strict, verdicts: new Map([[hold.id, kept]]) }).status).toBe("closed");
  });
});
