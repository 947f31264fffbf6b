"use client";

import type { ReactNode } from "react";
import { Facts } from "@/components/ui/section";
import type { StepRecord } from "@/lib/hvac/procedure";
import type { QuantityName } from "../units/quantity-kinds";
import { type Units, useUnits } from "../units/unit-choices";
import { fieldWord, quantityOfField } from "./field-words";
import { RecordedHold } from "./recorded-hold";

interface Fact {
  term: string;
  value: ReactNode;
}

/** A record in words, field by field, in the units of this tablet; a hold with its picture. */
export function EvidenceFacts({ record, more }: { record: StepRecord; more: readonly Fact[] }) {
  const units = useUnits();
  return (
    <>
      {record.step === "hold" && <RecordedHold evidence={record.evidence} />}
      <Facts items={[...more, ...listFacts(record.evidence, units)]} />
    </>
  );
}

function listFacts(evidence: object, units: Units, prefix = ""): Fact[] {
  return Object.entries(evidence).flatMap(([field, value]): Fact[] => {
    if (value === null || field === "photos" || field === "toolId" || field === "cylinderId" || field === "signedBy")
      return [];
    const term = prefix ? `${prefix}: ${fieldWord(field).toLowerCase()}` : fieldWord(field);
    if (Array.isArray(value)) return value.length === 0 ? [] : [{ term, value: listWords(value, units) }];
    if (typeof value === "object") return objectFacts(field, value as object, units, term);
    return [{ term, value: scalarWords(field, value, units) }];
  });
}

function objectFacts(field: string, value: object, units: Units, term: string): Fact[] {
  if ("kept" in value) {
    const kept = value as { kept: string; readings?: unknown[]; trace?: { sampleCount: number } };
    return [{ term: "Readings", value: `${kept.readings?.length ?? kept.trace?.sampleCount ?? 0}` }];
  }
  if (field === "deviceVerdict") {
    const judged = value as { verdict: string; rulesVersion: string };
    return [{ term, value: `${judged.verdict.replaceAll("-", " ")}, rules ${judged.rulesVersion}` }];
  }
  return listFacts(value, units, term);
}

function listWords(list: readonly unknown[], units: Units): ReactNode {
  return (
    <ul>
      {list.map((item) => {
        const words =
          typeof item === "object" && item !== null
            ? listFacts(item, units)
                .map(({ term, value }) => `${term.toLowerCase()} ${value}`)
                .join(", ")
            : String(item);
        return <li key={words}>{words}</li>;
      })}
    </ul>
  );
}

function scalarWords(field: string, value: unknown, units: Units): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") {
    const quantity: QuantityName | undefined = quantityOfField(field);
    return quantity ? units.both(quantity, value) : String(value);
  }
  const text = String(value);
  if (/^\d{4}-\d{2}-\d{2}T/.test(text)) return new Date(text).toLocaleString();
  return /^[a-z][a-z0-9]*(-[a-z0-9]+)+$/.test(text) ? text.replace(/(?<=[a-z])-|-(?=[a-z])/g, " ") : text;
}
