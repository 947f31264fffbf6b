import { describe, expect, test } from "vitest";
import { type Certificate, writeCertificate } from "@/lib/certificate";
import type { LogEntry } from "@/lib/hvac/procedure";
import { demoLog, overriddenLog, sourceOf } from "./demo-job";

function certificateOf(log: readonly LogEntry[]): Certificate {
  const written = writeCertificate(sourceOf(log));
  if (!written.ok) throw new Error(written.error.code);
  return written.value;
}

describe("the certificate of a proven job", () => {
  const certificate = certificateOf(demoLog());

  test("says what was found in plain words, each number with its unit", () => {
    expect(certificate.headline).toBe("Tested tight and dry");
    expect(certificate.strength).toBe("strong");
    expect(certificate.findings.map(({ test, word }) => `${test}: ${word}`)).toEqual([
      "Pressure test: Tight",
      "Leak check: No joint found leaking",
      "Isolated hold: Dry and tight",
    ]);
    const said = certificate.findings.flatMap(({ sentences }) => sentences).join(" ");
    expect(said).toMatch(/No leak above 0\.\d+ kPa\/h, where 10 kPa\/h is allowed/);
    expect(said).toMatch(/No leak above 3 g a year/);
    expect(said).toMatch(/no leak above \d\.\d micron\/min, where 5\.0 micron\/min is allowed/);
  });

  test("never says that there is no leak", () => {
    expect(JSON.stringify(certificate)).not.toMatch(/no leaks?[."]/i);
  });

  test("names every step in order, its author and the site's clock", () => {
    expect(certificate.steps).toHaveLength(11);
    const test = certificate.steps.find(({ step }) => step === "Pressure test");
    expect(test).toMatchObject({ word: "Proven", by: ["Tomas Reedley", "2026-10-16, 09:20"] }); // 14:20 UTC, Chicago in summer
  });

  test("says what was asked and where that is written", () => {
    const hold = certificate.criteria.find(({ step }) => step === "Isolated hold");
    expect(hold?.asked).toMatch(/target 500 micron \(66\.7 Pa\); held for 10 min; at the end at most 1000 micron/);
    expect(hold?.sources).toMatch(/product's own choice/);
  });

  test("lists the instruments with their calibration on the day", () => {
    expect(certificate.instruments.map(({ label }) => label)).toEqual([
      "Recovery machine 1",
      "Test gauge 1",
      "Detector 1",
      "Micron gauge 1",
      "Pump 1, two-stage",
      "Charging scale 1",
    ]);
    expect(certificate.instruments[3]).toMatchObject({
      used: "Evacuation, Isolated hold",
      calibration: "calibrated, next due 2027-06-01",
    });
  });

  test("names the people and the certificate the records were signed by", () => {
    expect(certificate.people).toMatchObject([{ name: "Tomas Reedley", certificate: "INV-4471" }]);
    expect(certificate.people[0]?.did).toMatch(/^Make safe, Recovery, .*, closed the job$/);
  });

  test("carries the digest of its closing entry", () => {
    const closing = demoLog().at(-1)!;
    expect(certificate.paper.digest).toBe(closing.kind === "job-closed" && closing.body.digest);
    expect(certificate.paper.verdicts).toEqual({ pressureTest: "tight", leakCheck: "complete", hold: "dry-and-tight" });
  });
});

test("an override stands on the front page and is never called proven", () => {
  const certificate = certificateOf(overriddenLog());
  expect(certificate).toMatchObject({ headline: "Closed with a test that was not proven", strength: "weak" });
  expect(certificate.findings[2]).toMatchObject({ standing: "allowed", word: "Not proven, allowed by a supervisor" });
  expect(certificate.overrides).toEqual([
    "Isolated hold, asked by Tomas Reedley: The shop opens in ten minutes; the reading was flattening. Allowed by Marek Holtby: Seen the readings; recheck within a week.",
  ]);
  expect(certificate.people.map(({ name }) => name)).toEqual(["Tomas Reedley", "Marek Holtby"]);
  expect(certificate.paper.verdicts.hold).toBe("allowed");
});

test("a job that is open has no certificate", () => {
  expect(writeCertificate(sourceOf(demoLog().slice(0, -1)))).toEqual({ ok: false, error: { code: "not-closed" } });
});

test("a calibration that had run out on the day is said to be out of date", () => {
  const log = demoLog().map((entry) => JSON.parse(JSON.stringify(entry).replaceAll("2027-06-01", "2026-10-01")));
  const source = { ...sourceOf(demoLog()), entries: log as LogEntry[] };
  const written = writeCertificate(source);
  if (!written.ok) throw new Error(written.error.code);
  expect(written.value.instruments[1]?.calibration).toBe("calibration was due 2026-10-01: out of date");
});
