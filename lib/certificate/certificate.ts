import type { JobState, LogEntry, LogEntryOf, Strength } from "@/lib/hvac/procedure";
import { JOB_KINDS, stepName } from "@/lib/hvac/procedure";
import { err, ok, type Result } from "@/lib/result";
import { evidenceLines, massText } from "@/lib/work/evidence-lines";
import { listHolds, type RecordedHold } from "@/lib/work/holds";
import { clockAt, dayAt } from "@/lib/work/site-time";
import { jobKindWord } from "@/lib/work/words";
import { type PaperFacts, paperVerdicts } from "./check";
import { type CriteriaLine, listCriteria } from "./criteria-lines";
import { type Finding, listFindings, type Standing } from "./findings";
import { type InstrumentLine, listInstruments } from "./instruments";
import { listPeople, type PersonLine } from "./people";
import { type CertificateSource, nameOf } from "./source";

export const CERTIFICATE_FORM = "certificate-1";

/** Everything that stands on a certificate, in the words it stands there. The same log gives the same one anywhere. */
export interface Certificate {
  readonly title: string;
  readonly fileName: string;
  readonly companyName: string;
  readonly standing: Standing;
  readonly headline: string;
  readonly strength: Strength;
  readonly facts: readonly Fact[];
  readonly findings: readonly Finding[];
  /** The hold the proof rests on; none where no hold was made. */
  readonly hold: RecordedHold | null;
  /** What limits the proof, and what happened that should not have. */
  readonly limits: readonly string[];
  readonly steps: readonly StepLine[];
  readonly criteria: readonly CriteriaLine[];
  readonly instruments: readonly InstrumentLine[];
  readonly people: readonly PersonLine[];
  readonly overrides: readonly string[];
  readonly closedAt: string;
  readonly closing: string;
  readonly paper: PaperFacts;
  readonly rules: string;
  readonly checkUrl: string | null;
}
export interface Fact {
  readonly term: string;
  readonly value: string;
}
export interface StepLine {
  readonly step: string;
  readonly standing: Standing;
  readonly word: string;
  readonly lines: readonly string[];
  /** Who recorded it, and when at the site. */
  readonly by: readonly string[];
}

/** A closed job as a certificate; a job that is open, or that got entries after closing, has none. */
export function writeCertificate(source: CertificateSource): Result<Certificate, { code: "not-closed" | "stale" }> {
  const { state, proof, entries, job } = source;
  const closing = entries.find((entry) => entry.id === state.closedBy);
  if (closing?.kind !== "job-closed") {
    return err({ code: state.certificate === "stale" ? "stale" : "not-closed" });
  }
  const findings = listFindings(state, entries);
  const counted = state.steps.flatMap((step) => entries.find((entry) => entry.id === step.entry) ?? []);
  return ok({
    title: `Certificate of a sealed circuit, job ${job.number}`,
    fileName: `certificate-job-${job.number}.pdf`,
    companyName: source.companyName,
    ...standingOf(findings),
    strength: proof.strength,
    facts: factsOf(source, closing),
    findings,
    hold: listHolds({ state, entries, traces: source.traces }).find((each) => each.counts) ?? null,
    limits: [...proof.reasons.map(({ text }) => text), ...state.alarms.map(({ text }) => text)],
    steps: state.steps.map((step) => stepLine(step, source)),
    criteria: listCriteria(state),
    instruments: listInstruments(counted),
    people: listPeople(source, counted, closing),
    overrides: overridesOf(source),
    closedAt: closing.deviceAt,
    closing: `Closed ${momentAt(closing.deviceAt, job.site.timeZone)} by ${nameOf(source, closing.person)} on ${entries.length - 1} entries.`,
    paper: { digest: closing.body.digest, strength: proof.strength, verdicts: paperVerdicts(state) },
    rules: [
      ...new Set([state.rulesVersion, ...state.steps.flatMap(({ verdict }) => verdict?.rulesVersion ?? [])]),
    ].join(", "),
    checkUrl: source.checkUrl,
  });
}

function standingOf(findings: readonly Finding[]): Pick<Certificate, "standing" | "headline"> {
  if (findings.some(({ standing }) => standing === "allowed")) {
    return { standing: "allowed", headline: "Closed with a test that was not proven" };
  }
  if (findings.every(({ standing }) => standing === "proven")) {
    return { standing: "proven", headline: "Tested tight and dry" };
  }
  return { standing: "left-out", headline: "Closed; not every test was made on this kind of job" };
}

function factsOf({ job, state }: CertificateSource, closing: LogEntryOf<"job-closed">): Fact[] {
  const { unit, site } = job;
  const words = (...parts: string[]) => parts.filter(Boolean).join(", ");
  return [
    { term: "Customer", value: job.customer },
    { term: "Site", value: words(site.name, site.street, site.city) },
    { term: "Unit", value: words(unit.name, unit.place) },
    {
      term: "Maker, model",
      value: words(unit.maker, unit.model, unit.serial && `serial ${unit.serial}`) || "not stated",
    },
    { term: "Circuit", value: job.circuitName },
    { term: "Refrigerant", value: refrigerantWords(state) },
    { term: "Work", value: workWords(state) },
    { term: "Closed", value: `${momentAt(closing.deviceAt, site.timeZone)}, the site's time` },
    { term: "Recovered", value: massText(state.mass.recoveredKg) },
    { term: "Charged", value: massText(state.mass.chargedKg) },
  ];
}

function workWords({ kind }: JobState): string {
  return JOB_KINDS.some((known) => known === kind) ? jobKindWord[kind] : "Kind not stated";
}

function refrigerantWords({ circuit }: JobState): string {
  const fact = circuit?.refrigerant;
  if (fact?.state === "identified") return `${fact.refrigerant}, safety class ${fact.safetyClass}`;
  return fact?.state === "mixed" ? "a mixture" : "not identified";
}

function stepLine(step: JobState["steps"][number], source: CertificateSource): StepLine {
  const entry = source.entries.find((each) => each.id === step.entry);
  const standing = step.settledBy === "override" ? "allowed" : step.settledBy === "skip" ? "left-out" : "proven";
  return {
    step: stepName(step.step),
    standing,
    word: { allowed: "Allowed", "left-out": "Left out", proven: "Proven" }[standing],
    lines: [...recordLines(entry), ...figureLines(step)],
    by: entry ? [nameOf(source, entry.person), momentAt(entry.deviceAt, source.job.site.timeZone)] : [],
  };
}

function recordLines(entry: LogEntry | undefined): string[] {
  if (entry?.kind === "step-recorded") return evidenceLines(entry.body);
  return entry?.kind === "step-skipped" ? [entry.body.grounds.statement] : [];
}

/** The judges' sentences; those of a hold and a pressure test stand on the first page. */
function figureLines({ step, verdict }: JobState["steps"][number]): string[] {
  const { superheatK, subcoolingK } = verdict?.figures ?? {};
  const running = [
    ...(superheatK === undefined ? [] : [`superheat ${kelvinText(superheatK)}`]),
    ...(subcoolingK === undefined ? [] : [`subcooling ${kelvinText(subcoolingK)}`]),
  ];
  if (running.length > 0) return [`Computed: ${running.join(", ")}`];
  return step === "recover" ? (verdict?.reasons.map(({ text }) => text) ?? []) : [];
}

const kelvinText = (kelvin: number) => `${kelvin.toFixed(1)} K (${(kelvin * 1.8).toFixed(1)} °F)`;

function overridesOf(source: CertificateSource): string[] {
  return source.state.overrides.map((each) => {
    const asked = `${stepName(each.step)}, asked by ${nameOf(source, each.askedBy)}: ${each.why}`;
    if (each.answer === "none") return `${asked} Not answered.`;
    const answered = { granted: "Allowed", refused: "Refused", contested: "Answered twice, differently" }[each.answer];
    const self = each.ownAnswer ? " Asked and answered by the same person." : "";
    return `${asked} ${answered} by ${nameOf(source, each.answeredBy)}: ${each.answerWhy ?? ""}${self}`;
  });
}

/** Day and clock time at the site, the year with it: "2026-10-16, 08:20". */
export function momentAt(instant: string, timeZone: string): string {
  const at = new Date(instant);
  return `${dayAt(at, timeZone)}, ${clockAt(at, timeZone)}`;
}

/** A digest in groups of eight, for comparing by eye. */
export function digestGroups(digest: string): string {
  return digest.match(/.{1,8}/g)?.join(" ") ?? digest;
}
