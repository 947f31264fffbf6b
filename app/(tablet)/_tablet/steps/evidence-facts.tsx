"use client";

import type { ReactNode } from "react";
import { Facts } from "@/components/ui/section";
import type { StepRecord } from "@/lib/hvac/procedure";
import { recordedWords } from "@/lib/words/en/recorded";
import { picturesOfStep } from "@/lib/work/pictures-of";
import { useJobHere } from "../job/job-context";
import { Picture } from "../pictures/picture";
import { clockWords, dayWords } from "../today/time-words";
import type { QuantityName } from "../units/quantity-kinds";
import { type Units, useUnits } from "../units/unit-choices";
import { fieldWord, inOrder, quantityOfField } from "./field-words";
import { RecordedHold } from "./recorded-hold";

/** The units of the person reading, and the zone of the site the times happened in. */
interface Ground {
  readonly units: Units;
  readonly zone: string;
}
interface Fact {
  term: string;
  value: ReactNode;
}

/** A record in words, field by field, in the units of this tablet; a hold with its picture. */
export function EvidenceFacts({ record, more }: { record: StepRecord; more: readonly Fact[] }) {
  const { job } = useJobHere();
  const ground: Ground = { units: useUnits(), zone: job.heading.job.site.timeZone };
  const pictures = picturesOfStep(record);
  return (
    <>
      {record.step === "hold" && <RecordedHold evidence={record.evidence} />}
      <Facts items={[...more, ...listFacts(record.evidence, ground)]} />
      {pictures.length > 0 && (
        <ul className="flex flex-wrap gap-3">
          {pictures.map(({ id, words }) => (
            <li key={id}>
              <Picture id={id} job={job.id} alt={words} />
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function listFacts(evidence: object, ground: Ground, prefix = ""): Fact[] {
  return inOrder(evidence).flatMap(([field, value]): Fact[] => {
    if (
      value === null ||
      field === "photos" ||
      field === "customerSignature" ||
      field === "toolId" ||
      field === "cylinderId" ||
      field === "signedBy"
    )
      return [];
    const term =
      prefix && field !== "label" ? `${prefix}: ${fieldWord(field).toLowerCase()}` : prefix || fieldWord(field);
    if (Array.isArray(value)) return value.length === 0 ? [] : [{ term, value: listWords(value, ground) }];
    if (typeof value === "object") return objectFacts(field, value as object, ground, term);
    return [{ term, value: scalarWords(field, value, ground) }];
  });
}

function objectFacts(field: string, value: object, ground: Ground, term: string): Fact[] {
  if ("kept" in value) {
    const kept = value as { kept: string; readings?: unknown[]; trace?: { sampleCount: number } };
    return [{ term: recordedWords.readings, value: `${kept.readings?.length ?? kept.trace?.sampleCount ?? 0}` }];
  }
  if (field === "deviceVerdict") {
    const judged = value as { verdict: string; rulesVersion: string };
    return [{ term, value: recordedWords.verdictByRules(judged.verdict.replaceAll("-", " "), judged.rulesVersion) }];
  }
  return listFacts(value, ground, term);
}

/** Each thing of a list by its name, then what is said of it: a word as it is, a number with its name, a yes by its name alone. */
function listWords(list: readonly unknown[], ground: Ground): ReactNode {
  return (
    <ul>
      {list.map((item) => {
        const words = typeof item === "object" && item !== null ? itemWords(item, ground) : String(item);
        return <li key={words}>{words}</li>;
      })}
    </ul>
  );
}

const NAMES = ["label", "joint", "name", "what"];
const UNSAID = ["cylinderId", "toolId", "stamp"];

function itemWords(item: object, ground: Ground): string {
  const fields = inOrder(item).filter(([field, value]) => value !== null && value !== false && !UNSAID.includes(field));
  const name = fields.find(([field]) => NAMES.includes(field))?.[1];
  const said = fields.flatMap(([field, value]) => {
    if (NAMES.includes(field)) return [];
    if (value === true) return [fieldWord(field).toLowerCase()];
    const words = scalarWords(field, value, ground);
    return [typeof value === "number" ? `${fieldWord(field).toLowerCase()} ${words}` : words];
  });
  return [name, said.join(", ")].filter(Boolean).join(": ");
}

function scalarWords(field: string, value: unknown, ground: Ground): string {
  if (typeof value === "boolean") return value ? recordedWords.yes : recordedWords.no;
  if (typeof value === "number") {
    const quantity: QuantityName | undefined = quantityOfField(field);
    return quantity ? ground.units.both(quantity, value) : String(value);
  }
  const text = String(value);
  if (/^\d{4}-\d{2}-\d{2}T/.test(text))
    return `${dayWords(text, ground.zone, Date.now())} ${clockWords(text, ground.zone)}`;
  return /^[a-z][a-z0-9]*(-[a-z0-9]+)+$/.test(text) ? text.replace(/(?<=[a-z])-|-(?=[a-z])/g, " ") : text;
}
