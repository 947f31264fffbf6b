import { describe, expect, test } from "vitest";
import {
  type CircuitDemand,
  circuitDemandOf,
  listAcceptedCertificates,
  listMissingCertificates,
} from "@/lib/work/qualification";

const day = "2026-11-25";
const hold = (...kinds: string[]) => kinds.map((kind) => ({ kind, expiresOn: null }));
const us = (given: Partial<CircuitDemand>): CircuitDemand => ({
  ruleSet: "us",
  pressureClass: "high",
  smallAppliance: false,
  flammable: false,
  family: "other",
  chargeKg: null,
  ...given,
});

/*
 * Source: 40 CFR 82.161(a)(1) to (4): Type I small appliances, Type II high or very high (and medium) pressure except small
 * appliances and motor vehicle air conditioners, Type III low pressure, Universal all of them. From memory of the rule's text.
 */
const rows = [
  ["small appliance", us({ smallAppliance: true }), ["us-type-1", "us-universal"]],
  [
    "small appliance with a low-pressure refrigerant",
    us({ smallAppliance: true, pressureClass: "low" }),
    ["us-type-1", "us-universal"],
  ],
  ["medium pressure", us({ pressureClass: "medium" }), ["us-type-2", "us-universal"]],
  ["high pressure", us({ pressureClass: "high" }), ["us-type-2", "us-universal"]],
  ["very high pressure", us({ pressureClass: "very-high" }), ["us-type-2", "us-universal"]],
  ["low pressure", us({ pressureClass: "low" }), ["us-type-3", "us-universal"]],
] as const;
const all = ["us-type-1", "us-type-2", "us-type-3", "us-universal"];

describe("40 CFR 82.161", () => {
  const cases = rows.flatMap(([what, demand, enough]) =>
    all.map((kind) => [kind, what, demand, (enough as readonly string[]).includes(kind)] as const),
  );
  test.each(cases)("%s for a %s circuit", (kind, _what, demand, suffices) => {
    expect(listMissingCertificates(demand, hold(kind), day).length === 0).toBe(suffices);
  });

  test("a refrigerant nobody knows asks for the one certificate that covers all", () => {
    const unknown = us({ pressureClass: null });
    expect(listMissingCertificates(unknown, hold("us-type-2"), day)).toEqual(["Universal"]);
    expect(listMissingCertificates(unknown, hold("us-universal"), day)).toEqual([]);
  });

  test("a European certificate does not stand in for one of these, nor the other way", () => {
    expect(listMissingCertificates(us({}), hold("eu-a1"), day)).toEqual(["Type II or Universal"]);
    expect(listMissingCertificates({ ...us({}), ruleSet: "eu" }, hold("us-universal"), day)).toEqual([
      "EU category A1",
    ]);
  });
});

test("flammables ask for their own competence beside the certificate (common practice)", () => {
  const flammable = us({ flammable: true });
  expect(listMissingCertificates(flammable, hold("us-universal"), day)).toEqual([
    "competence for flammable refrigerants",
  ]);
  expect(listMissingCertificates(flammable, hold("us-universal", "flammables"), day)).toEqual([]);
  expect(listMissingCertificates(flammable, [], day)).toHaveLength(2);
});

test("a certificate holds to the end of its last day and not after", () => {
  const expiresOn = new Date("2026-11-25T00:00:00Z");
  const held = [{ kind: "us-universal", expiresOn }];
  expect(listMissingCertificates(us({}), held, day)).toEqual([]);
  expect(listMissingCertificates(us({}), held, "2026-11-26")).toHaveLength(1);
});

/*
 * Sources: safety and pressure classes of the project's refrigerant table (ASHRAE 34 and ISO 817; 40 CFR 82.152). The registers' circuits
 * of a day: what each asks for. Small appliance: at most 5 lb (2.268 kg), 40 CFR 82.152, from memory.
 */
const circuit = (given: Partial<Parameters<typeof circuitDemandOf>[0]>) =>
  circuitDemandOf(
    {
      refrigerantState: "identified",
      actualRefrigerant: "R-410A",
      factoryChargeKg: 3.4,
      applianceKind: "comfort_cooling",
      ...given,
    },
    "us",
  );

describe("what a circuit of the register asks for", () => {
  test.each([
    ["R-410A", false],
    ["R-32", true],
    ["R-454B", true],
    ["R-290", true],
    ["R-717", true],
    ["R-744", false],
    ["R-9999 (on no list)", true],
  ])("%s is flammable: %s", (actualRefrigerant, flammable) => {
    expect(circuit({ actualRefrigerant }).flammable).toBe(flammable);
  });

  test.each([
    [2.26, true],
    [2.28, false],
    [null, true],
  ])("a factory-sealed unit of %s kg is a small appliance: %s", (factoryChargeKg, small) => {
    expect(circuit({ applianceKind: "small_appliance", factoryChargeKg }).smallAppliance).toBe(small);
  });

  test("a mixture and a refrigerant nobody knows ask for the widest certificate and care for flammables", () => {
    for (const refrigerantState of ["mixed", "unknown"])
      expect(listAcceptedCertificates(circuit({ refrigerantState, actualRefrigerant: null }))).toEqual([
        "us-universal",
      ]);
  });

  // source: Implementing Regulation (EU) 2024/2215, categories, from memory
  test.each([
    ["R-410A", 3.4, ["eu-a1"]],
    ["R-32", 1.2, ["eu-a1", "eu-a2"]],
    ["R-410A", null, ["eu-a1"]],
    ["R-744", 20, ["eu-b"]],
    ["R-717", 80, ["eu-c"]],
  ])("in Europe %s with %s kg asks for %s", (actualRefrigerant, chargeKg, accepted) => {
    const { family } = circuit({ actualRefrigerant });
    expect(listAcceptedCertificates({ ...us({ family, chargeKg }), ruleSet: "eu" })).toEqual(accepted);
  });
});
