import { expect, test } from "vitest";
import {
  checkTokenHash,
  judgePaper,
  newCheckToken,
  type PaperFacts,
  TOKEN_FORM,
  writeCertificate,
} from "@/lib/certificate";
import type { LogEntry } from "@/lib/hvac/procedure";
import { alter, demoLog, overriddenLog, sourceOf, writeLog } from "./demo-job";

function paperOf(log: readonly LogEntry[]): PaperFacts {
  const written = writeCertificate(sourceOf(log));
  if (!written.ok) throw new Error(written.error.code);
  return written.value.paper;
}
const check = (log: readonly LogEntry[], paper = paperOf(demoLog())) => judgePaper(paper, sourceOf(log));

test("the record it was made from matches, digest and verdict", () => {
  const paper = paperOf(demoLog());
  expect(check(demoLog())).toEqual({
    outcome: "matches",
    digest: paper.digest,
    strength: "strong",
    verdicts: paper.verdicts,
  });
  expect(check(overriddenLog(), paperOf(overriddenLog())).outcome).toBe("matches");
});

test("any entry altered by one figure, one word or one minute fails", () => {
  const log = demoLog();
  for (const [at, entry] of log.slice(0, -1).entries()) {
    const later = alter(log, entry.id, (copy) => {
      copy.deviceAt = copy.deviceAt.replace(":00.000Z", ":01.000Z");
    });
    expect(check(later).outcome, `entry ${at}`).toBe("altered");
  }
  const hold = log.find((entry) => entry.kind === "step-recorded" && entry.body.step === "hold")!;
  const drier = alter(log, hold.id, (copy) => {
    if (copy.kind !== "step-recorded" || copy.body.step !== "hold") throw new Error("not the hold");
    if (copy.body.evidence.record.kept === "inline") copy.body.evidence.record.readings[5]!.micron -= 1;
  });
  const outcome = check(drier);
  expect(outcome.outcome).toBe("altered");
  expect(outcome.digest).not.toBe(paperOf(log).digest);
});

test("an entry taken out fails", () => {
  const log = demoLog();
  for (const at of [1, 5, 8]) expect(check(log.toSpliced(at, 1)).outcome).toBe("altered");
});

test("a closing written anew over an altered log is not the paper's", () => {
  const log = demoLog();
  const forged = writeLog([
    ...log.slice(0, -1).map(({ kind, body }) => ({ kind, body: structuredClone(body) }) as never),
    { kind: "note", body: { text: "slipped in", photos: [] } },
    "close",
  ]);
  expect(check(forged)).toMatchObject({ outcome: "not-arrived", digest: null });
});

test("an entry that came after closing is said to have come later, with the digest still right", () => {
  const log = demoLog();
  const contents = log.map(({ kind, body }) => ({ kind, body: structuredClone(body) }) as never);
  const late = writeLog([
    ...contents,
    { kind: "note", body: { text: "The customer called: the unit hums.", photos: [] } },
  ]);
  expect(check(late, paperOf(log))).toMatchObject({ outcome: "entries-came-later", digest: paperOf(log).digest });
});

test("a closing that a tablet still keeps has not arrived", () => {
  expect(check(demoLog().slice(0, -1)).outcome).toBe("not-arrived");
});

test("an unaltered record judged otherwise today is told apart from an altered one", () => {
  const paper = { ...paperOf(demoLog()), strength: "fair" as const };
  expect(check(demoLog(), paper)).toMatchObject({ outcome: "judged-otherwise", digest: paper.digest });
});

test("a link's token has 144 random bits and only its hash is kept", () => {
  const fill = (bytes: Uint8Array<ArrayBuffer>) => void crypto.getRandomValues(bytes);
  const tokens = Array.from({ length: 50 }, () => newCheckToken(fill));
  for (const token of tokens) expect(token).toMatch(TOKEN_FORM);
  expect(new Set(tokens).size).toBe(50);
  // @source FIPS 180-4, the example message "abc"
  expect(checkTokenHash("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
});
