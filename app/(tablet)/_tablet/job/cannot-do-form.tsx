"use client";

import { type ReactNode, useState } from "react";
import { Button } from "@/components/ui/button";
import { SheetButtons } from "@/components/ui/dialog";
import { LoadingLines } from "@/components/ui/progress";
import { findRefrigerant, listRefrigerants } from "@/lib/hvac";
import type { EntryContent, SkipReason, StepId } from "@/lib/hvac/procedure";
import { cannotDoWords } from "@/lib/words/en/cannot-do";
import { fieldsWords } from "@/lib/words/en/fields";
import { jobKinds, jobKindWord } from "@/lib/work/words";
import { type Draft, valueAt } from "../form/draft";
import { OneOf, Words, YesNo } from "../form/fields";
import { FormProvider, withoutAnswered } from "../form/form-context";
import { useDraft } from "../form/use-draft";
import { CriteriaFields, criteriaContent } from "./criteria-fields";
import { type EntryProblem, PROGRAM } from "./entry-check";
import { useJobHere } from "./job-context";

export type WayOut = { readonly key: string; readonly title: string; readonly lead: string } & (
  | { readonly kind: "skip"; readonly reason: Exclude<SkipReason, "other">; readonly shown: string }
  | { readonly kind: "override" | "left" | "opened" | "kind" | "refrigerant" | "criteria" | "note" }
);

/** The few questions of one way out, and the entry they make. */
export function CannotDoForm(props: {
  way: WayOut;
  step: StepId;
  onRecord: (content: EntryContent) => Promise<readonly EntryProblem[]>;
  onBack: () => void;
}) {
  const { way, step } = props;
  const { job } = useJobHere();
  const form = useDraft(job.id, `${step} ${way.key}`, () => ({}));
  const [problems, setProblems] = useState<ReadonlyMap<string, string>>(new Map());
  const [pending, setPending] = useState(false);
  if (form.draft === undefined) return <LoadingLines lines={3} />;
  const { draft } = form;
  function set(path: string, value: unknown) {
    form.set(path, value);
    setProblems((open) => withoutAnswered(open, path));
  }

  async function save() {
    setPending(true);
    const found = await props.onRecord(contentOf(way, step, draft));
    setPending(false);
    setProblems(new Map(found.map(({ path, message }) => [placeOf(path), message])));
    if (found.length === 0) await form.clear();
  }

  return (
    <div className="grid gap-4">
      <FormProvider value={{ draft, set, open: problems }}>{fieldsOf(way, step)}</FormProvider>
      {problems.size > 0 && (
        <p role="alert" className="font-medium text-refused">
          {problems.get(PROGRAM) ?? cannotDoWords.stillOpenAbove}
        </p>
      )}
      <SheetButtons>
        <Button kind="action" pending={pending} pendingWord={fieldsWords.savingHere} onClick={() => void save()}>
          {verbOf(way)}
        </Button>
        <Button onClick={props.onBack}>{fieldsWords.back}</Button>
      </SheetButtons>
    </div>
  );
}

/** Where the form asks for what the entry carries under this path. */
function placeOf(path: string): string {
  if (/^grounds\.(sealsIntact|capsIntact|serviceValvesClosed)$/.test(path)) return "shown";
  return path === "row.source" ? "document" : path.replace(/^row\.criteria\./, "");
}

function fieldsOf(way: WayOut, step: StepId): ReactNode {
  switch (way.kind) {
    case "skip":
      return (
        <>
          <YesNo at="shown" label={way.shown} />
          <Words at="grounds.statement" label={cannotDoWords.inYourWords} long />
        </>
      );
    case "override":
      return <Words at="why" label={cannotDoWords.whyItCannotBeDone} long />;
    case "left":
      return (
        <>
          <OneOf
            at="holding"
            label={cannotDoWords.howItIsLeft}
            columns={3}
            options={[
              { value: "nitrogen", label: cannotDoWords.holdingNitrogen },
              { value: "valved-off", label: cannotDoWords.valvedOff },
              { value: "charged", label: cannotDoWords.charged },
            ]}
          />
          <Words at="tag" label={cannotDoWords.whatTheTagSays} hint={cannotDoWords.whereItHangs} />
          <Words at="note" label={cannotDoWords.forWhoeverComesBack} long />
        </>
      );
    case "opened":
      return <Words at="why" label={cannotDoWords.whyItWasOpened} long />;
    case "kind":
      return (
        <>
          <OneOf
            at="jobKind"
            label={cannotDoWords.kindOfJob}
            options={jobKinds.map((kind) => ({ value: kind, label: jobKindWord[kind] }))}
          />
          <Words at="why" label={cannotDoWords.whatWasFound} long />
        </>
      );
    case "refrigerant":
      return <RefrigerantFields />;
    case "criteria":
      return <CriteriaFields step={step} />;
    case "note":
      return <Words at="text" label={fieldsWords.note} long />;
  }
}

function RefrigerantFields() {
  return (
    <>
      <OneOf
        at="refrigerant"
        label={cannotDoWords.whatIsInTheCircuit}
        columns={3}
        options={[
          ...listRefrigerants().map(({ name, safetyClass }) => ({ value: name, label: name, detail: safetyClass })),
          { value: "mixed", label: cannotDoWords.aMixture },
          { value: "unknown", label: fieldsWords.notKnown },
        ]}
      />
      <Words at="how" label={cannotDoWords.howItWasIdentified} hint={cannotDoWords.identifierLabelPressure} />
    </>
  );
}

function contentOf(way: WayOut, step: StepId, draft: Draft): EntryContent {
  const words = (path: string) => String(valueAt(draft, path) ?? "").trim();
  switch (way.kind) {
    case "skip": {
      const grounds = skipGrounds(way.reason, draft.shown, words("grounds.statement"));
      return { kind: "step-skipped", body: { step, grounds, photos: [] } } as EntryContent;
    }
    case "override":
      return { kind: "override-asked", body: { step, why: words("why") } };
    case "left":
      return {
        kind: "left-for-today",
        body: { holding: draft.holding, tag: words("tag"), note: words("note") },
      } as EntryContent;
    case "opened":
      return { kind: "circuit-opened", body: { why: words("why") } };
    case "kind":
      return { kind: "job-kind-set", body: { jobKind: draft.jobKind, why: words("why") } } as EntryContent;
    case "refrigerant":
      return {
        kind: "refrigerant-identified",
        body: { refrigerant: refrigerantFact(draft.refrigerant), how: words("how") },
      } as EntryContent;
    case "criteria":
      return criteriaContent(step, draft);
    case "note":
      return { kind: "note", body: { text: words("text"), photos: [] } };
  }
}

function skipGrounds(reason: Exclude<SkipReason, "other">, shown: unknown, statement: string) {
  switch (reason) {
    case "circuit-not-opened":
      return { reason, sealsIntact: shown, statement };
    case "no-port-touched":
      return { reason, capsIntact: shown, statement };
    case "no-refrigerant-in-line-set":
      return { reason, serviceValvesClosed: shown, statement };
  }
}

function refrigerantFact(chosen: unknown) {
  if (chosen === "unknown") return { state: "unknown" };
  if (chosen === "mixed")
    return { state: "mixed", safetyClass: null, pressureClass: null, note: cannotDoWords.foundAMixture };
  const known = typeof chosen === "string" ? findRefrigerant(chosen) : undefined;
  if (!known) return null;
  const { name, safetyClass, pressureClass } = known;
  return { state: "identified", refrigerant: name, safetyClass, pressureClass };
}

function verbOf(way: WayOut): string {
  switch (way.kind) {
    case "skip":
      return cannotDoWords.leaveTheStepOut;
    case "override":
      return cannotDoWords.askTheSupervisor;
    case "left":
      return cannotDoWords.leaveForToday;
    case "opened":
      return cannotDoWords.recordTheOpening;
    case "kind":
      return cannotDoWords.setTheKindOfJob;
    case "refrigerant":
      return cannotDoWords.recordTheRefrigerant;
    case "criteria":
      return cannotDoWords.useTheMakersCriteria;
    case "note":
      return cannotDoWords.keepTheNote;
  }
}
