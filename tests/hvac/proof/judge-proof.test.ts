import { describe, expect, test } from "vitest";
import { type HoldFacts, judgeProof, type ProofFacts, type Strength } from "@/lib/hvac/proof/judge-proof";
import { proofFacts } from "@/lib/hvac/proof/proof-facts";
import { PROOF_LIMITS, type ProofLimitCode } from "@/lib/hvac/proof/proof-words";
import { complete } from "../procedure/evidence-samples";
import { supervisorTablet, Tablet } from "../procedure/job-log";

const hold: HoldFacts = {
  readings: 600,
  typed: false,
  temperaturesLogged: true,
  smallestLeakShownMicronPerMin: 1.5,
  maxSteadyRiseMicronPerMin: 5,
  settlesHighMicron: 520,
  maxFinalMicron: 1000,
};
const flawless: ProofFacts = {
  settled: true,
  overridden: false,
  opened: true,
  calibrations: ["in-date", "in-date"],
  scaleOverdue: false,
  hold,
  coresOut: true,
  pumpOil: "fresh",
  ratedLeakCheck: true,
  brazedWithoutNitrogen: false,
  newDrier: true,
  criteriaLoosened: false,
  failedTestCorrected: false,
  recordCorrected: false,
  alarms: [],
};

test("nothing to say against it: strong, with what the record could have shown", () => {
  expect(judgeProof(flawless)).toEqual({
    strength: "strong",
    reasons: [],
    smallestLeakShownMicronPerMin: 1.5,
    settlesHighMicron: 520,
  });
});

/** One flaw each; what it caps the proof at. The caps are this product's own choice. */
const flaws: readonly (readonly [ProofLimitCode, Partial<ProofFacts>, Strength])[] = [
  ["not-proven", { settled: false }, "none"],
  ["override-used", { overridden: true }, "weak"],
  ["calibration-overdue", { calibrations: ["in-date", "overdue"] }, "weak"],
  ["serious-alarm", { alarms: ["over-pressure"] }, "weak"],
  ["scale-overdue", { scaleOverdue: true }, "fair"],
  ["criteria-loosened", { criteriaLoosened: true }, "fair"],
  ["failed-test-corrected", { failedTestCorrected: true }, "fair"],
  ["record-corrected", { recordCorrected: true }, "fair"],
  ["temperature-not-logged", { hold: { ...hold, temperaturesLogged: false } }, "fair"],
  ["calibration-unknown", { calibrations: ["unknown"] }, "fair"],
  ["cores-left-in", { coresOut: false }, "fair"],
  ["pump-oil-poor", { pumpOil: "not-looked" }, "fair"],
  ["leak-barely-bounded", { hold: { ...hold, smallestLeakShownMicronPerMin: 4.1 } }, "fair"],
  ["level-near-limit", { hold: { ...hold, settlesHighMicron: 801 } }, "fair"],
  ["leak-bound-unknown", { hold: { ...hold, smallestLeakShownMicronPerMin: null } }, "fair"],
  ["detector-unrated", { ratedLeakCheck: false }, "fair"],
  ["out-of-order", { alarms: ["charged-before-hold"] }, "fair"],
  ["judged-otherwise", { alarms: ["device-judged-otherwise"] }, "fair"],
  ["brazed-without-nitrogen", { brazedWithoutNitrogen: true }, "fair"],
  ["no-new-drier", { newDrier: false }, "fair"],
  ["circuit-not-tested", { opened: false }, "fair"],
  ["typed-by-hand", { hold: { ...hold, typed: true } }, "fair"],
];

describe("one flaw at a time", () => {
  test.each(flaws)("%s", (code, change, strength) => {
    const proof = judgeProof({ ...flawless, ...change });
    expect(proof.strength).toBe(strength);
    expect(proof.reasons.map((reason) => reason.code)).toEqual([code]);
  });

  test("four readings typed by hand are weak, five are fair", () => {
    const typed = (readings: number) => judgeProof({ ...flawless, hold: { ...hold, typed: true, readings } }).strength;
    expect([typed(4), typed(5)]).toEqual(["weak", "fair"]);
  });

  test("every limit has its test", () => {
    expect([...flaws.map(([code]) => code), "few-readings"].sort()).toEqual(Object.keys(PROOF_LIMITS).sort());
  });
});

test("several flaws: all are named and the lowest one decides", () => {
  const proof = judgeProof({ ...flawless, coresOut: false, overridden: true });
  expect(proof.strength).toBe("weak");
  expect(proof.reasons.map(({ code }) => code)).toEqual(["override-used", "cores-left-in"]);
});

describe("read from a job's log", () => {
  const judged = (tablet: Tablet) => judgeProof(proofFacts(tablet.state(), tablet.view));

  test("an unfinished job proves nothing", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    expect(judged(tablet).strength).toBe("none");
  });

  test("a finished one with five readings typed by hand is fair", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    const readings = [0, 150, 300, 450, 600].map((s) => ({ s, micron: 310 + s / 60, temperatureC: 20 }));
    tablet.recordAll("make_safe", "evacuate");
    tablet.record("hold", { record: { kept: "inline", readings } });
    tablet.recordAll("break_and_charge", "records");
    expect(judged(tablet)).toMatchObject({ strength: "fair" });
    expect(judged(tablet).reasons.map(({ code }) => code)).toEqual(["typed-by-hand", "leak-bound-unknown"]);
  });

  test("a gauge past its calibration makes it weak, an override too", () => {
    const tablet = new Tablet(1);
    tablet.open("leak_repair");
    tablet.recordAll("make_safe", "evacuate");
    tablet.record("hold", { gauge: { ...complete.hold.gauge, calibrationDueOn: "2026-11-24" } });
    tablet.recordAll("break_and_charge", "break_and_charge");
    tablet.recordAll("performance", "performance");
    const ask = tablet.ask("close");
    const boss = supervisorTablet();
    boss.see(tablet);
    boss.answer(ask, true);
    tablet.see(boss);
    tablet.record("records");
    const codes = judged(tablet).reasons.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(["calibration-overdue", "override-used"]));
    expect(judged(tablet).strength).toBe("weak");
  });
});
