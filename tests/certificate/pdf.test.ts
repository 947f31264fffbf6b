import { createHash } from "node:crypto";
import { readFileSync, rmSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { drawCertificate } from "@/components/certificate/certificate-pdf";
import { serverFonts } from "@/components/certificate/server-fonts";
import { type Certificate, writeCertificate } from "@/lib/certificate";
import type { LogEntry } from "@/lib/hvac/procedure";
import { demoLog, overriddenLog, sourceOf } from "./demo-job";
import { readPdf } from "./read-pdf";

function certificateOf(log: readonly LogEntry[], change: Partial<ReturnType<typeof sourceOf>> = {}): Certificate {
  const written = writeCertificate({ ...sourceOf(log), ...change });
  if (!written.ok) throw new Error(written.error.code);
  return written.value;
}
const sha = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

let bytes: Uint8Array;
beforeAll(async () => {
  bytes = await drawCertificate(certificateOf(demoLog()), await serverFonts());
});

describe("as another library reads it", () => {
  test("the front page stands alone: what was found, the picture's words, what it means, the address", async () => {
    const { pages } = await readPdf(bytes);
    const front = pages[0]!.replaceAll(/\s+/g, " ");
    for (const words of [
      "Certificate of a sealed circuit, job 1002",
      "Tested tight and dry",
      "Strength of the proof: strong",
      "Willowbend Dental",
      "R-410A, safety class A1",
      "21.9 °C",
      "3.25 kg (7.17 lb)",
      "heading for",
      "water boils here",
      "What it does not show",
      "it does not protect against whoever operates the server",
    ]) {
      expect(front).toContain(words);
    }
    expect(front.replaceAll(" ", "")).toContain("https://dryhold.example/check/");
  });

  test("the record behind it has every step, criterion, instrument and person, and the whole digest", async () => {
    const certificate = certificateOf(demoLog());
    const { text } = await readPdf(bytes);
    for (const { step } of certificate.steps) expect(text).toContain(step);
    for (const { label } of certificate.instruments) expect(text).toContain(label);
    for (const { name } of certificate.people) expect(text).toContain(name);
    expect(text).toContain("nine tenths of the weakest part's design pressure");
    expect(text.replaceAll(" ", "")).toContain(certificate.paper.digest);
  });

  test("it is tagged, titled and in a language", async () => {
    const { roles, alts, info, language } = await readPdf(bytes);
    for (const role of ["Document", "H1", "H2", "P", "Figure", "Table", "TR", "TH", "TD"])
      expect(roles).toContain(role);
    expect(alts).toContainEqual(expect.stringMatching(/^Pressure over time on a logarithmic scale/));
    expect(alts).toContainEqual(expect.stringMatching(/^Square code of the address/));
    expect(info.Title).toBe("Certificate of a sealed circuit, job 1002");
    expect(language).toBe("en");
  });

  test("letters outside Western Europe are set, and a script without letters here shows as question marks", async () => {
    const job = { ...sourceOf(demoLog()).job, customer: "Győr Škoda Łódź ± 日本" };
    const { text } = await readPdf(await drawCertificate(certificateOf(demoLog(), { job }), await serverFonts()));
    expect(text.replaceAll(" ", "")).toContain("GyőrŠkodaŁódź±??");
  });

  test("an override and a long record keep to their pages", async () => {
    const { pages, text } = await readPdf(await drawCertificate(certificateOf(overriddenLog()), await serverFonts()));
    expect(pages[0]).toContain("Not proven, allowed by a supervisor");
    expect(text).toContain("recheck within a week");
    expect(pages.length).toBeLessThanOrEqual(3);
  });

  test("without a link it has no square code", async () => {
    const { alts, text } = await readPdf(
      await drawCertificate(certificateOf(demoLog(), { checkUrl: null }), await serverFonts()),
    );
    expect(alts.join()).not.toContain("Square code");
    expect(text).not.toContain("Check this paper at");
  });
});

describe("the same bytes", () => {
  const bundle = "test-results/certificate-in-a-browser.mjs";
  afterAll(() => rmSync(bundle, { force: true }));

  test("come out each time", async () => {
    expect(sha(await drawCertificate(certificateOf(demoLog()), await serverFonts()))).toBe(sha(bytes));
  });

  test("come out of the modules a browser is given", async () => {
    await build({
      entryPoints: ["components/certificate/certificate-pdf.ts"],
      bundle: true,
      platform: "browser",
      format: "esm",
      outfile: bundle,
      logLevel: "error",
    });
    expect(readFileSync(bundle, "utf8")).not.toContain('from "zlib"');
    const inBrowser = (await import(pathToFileURL(bundle).href)) as { drawCertificate: typeof drawCertificate };
    expect(sha(await inBrowser.drawCertificate(certificateOf(demoLog()), await serverFonts()))).toBe(sha(bytes));
  });
});
