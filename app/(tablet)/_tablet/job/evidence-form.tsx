"use client";

import { type ReactNode, useMemo, useState } from "react";
import { Button } from "@/components/ui/button";
import { LoadingLines } from "@/components/ui/progress";
import { TextArea } from "@/components/ui/text-input";
import type { EntryContent, StepId, StepRecord } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import type { EntryId } from "@/lib/ids";
import { fieldsWords } from "@/lib/words/en/fields";
import { recordWords } from "@/lib/words/en/record";
import { stepSentencesWords } from "@/lib/words/en/step-sentences";
import { useDevice } from "../device/device-context";
import { type Draft, evidenceOf } from "../form/draft";
import { FormProvider } from "../form/form-context";
import { useDraft } from "../form/use-draft";
import { settleLive } from "../instruments/settle-live";
import { PhotosField } from "../pictures/photos-field";
import { AgreementLine } from "./agreement";
import { CautionList } from "./caution-list";
import { type EntryProblem, STORAGE } from "./entry-check";
import { OpenElsewhere, StorageFull } from "./form-notices";
import { useJobHere } from "./job-context";
import { Preview } from "./preview";
import { StepFrame } from "./step-frame";

export interface StepFormProps {
  /** The entry this one corrects; without it a new record is made. */
  readonly correcting?: EntryId;
  readonly onDone: () => void;
  readonly onCancel?: () => void;
  readonly cannotDo?: ReactNode;
}

const BEFORE_OPENING: readonly StepId[] = ["make_safe", "recover", "open_repair"];

/** The evidence of one step, typed into a draft that survives, judged while it is typed, saved as one entry. */
export function EvidenceForm(
  props: StepFormProps & {
    step: StepId;
    blank: () => Draft;
    /** What of an unproven record is worth starting from; readings are taken anew. */
    carry?: (evidence: Draft) => Draft;
    /** Last touches before saving: what the device judged, readings moved into a trace. */
    finish?: (draft: Draft) => Promise<Draft> | Draft;
    verb: string;
    /** What a photo of this step may be said to show, beside the step itself. */
    photoSubjects?: (draft: Draft) => readonly string[];
    preview?: boolean;
    /** While an instrument is being watched the cautions stand below it. */
    isWatching?: (draft: Draft) => boolean;
    children: ReactNode;
  },
) {
  const { step, correcting } = props;
  const { store, desk } = useDevice();
  const { job, choose } = useJobHere();
  const earlier = useMemo(() => earlierEvidence(), []);
  const key = correcting ? `correct ${correcting}` : step;
  const form = useDraft(job.id, key, () => earlier ?? props.blank());
  const [problems, setProblems] = useState<readonly EntryProblem[]>([]);
  const [why, setWhy] = useState("");
  const [pending, setPending] = useState(false);
  const open = useMemo(() => {
    const paths = new Map<string, string>();
    for (const { path, message } of problems) paths.set(path.replace(/^evidence\./, ""), message);
    return paths;
  }, [problems]);

  if (form.draft === undefined)
    return (
      <StepFrame sentence={stepSentencesWords[step]}>
        <LoadingLines lines={5} label={recordWords.beingRead} />
      </StepFrame>
    );
  const { draft } = form;
  if (form.elsewhere)
    return (
      <StepFrame sentence={stepSentencesWords[step]}>
        <OpenElsewhere onTakeOver={form.takeOver} />
      </StepFrame>
    );

  const watching = props.isWatching?.(draft) ?? false;

  async function save() {
    if (correcting && why.trim() === "") {
      setProblems([{ path: "why", message: recordWords.sayWhyItIsCorrected }]);
      return;
    }
    setPending(true);
    const settled = await settleLive(store, desk, job.id, draft as Draft);
    const evidence = evidenceOf(props.finish ? await props.finish(settled) : settled);
    const found = await job.record({
      kind: "step-recorded",
      body: { step, evidence } as unknown as StepRecord, // checked against the schema before it is saved
      ...(correcting && { supersedes: { entry: correcting, why: why.trim() } }),
    } as EntryContent);
    setPending(false);
    setProblems(found);
    if (found.length > 0) {
      requestAnimationFrame(() =>
        document.querySelector("[data-open-field]")?.scrollIntoView({ block: "center", behavior: "smooth" }),
      );
      return;
    }
    await form.clear();
    choose(step);
    props.onDone();
  }

  return (
    <StepFrame
      sentence={correcting ? recordWords.correct(stepName(step)) : stepSentencesWords[step]}
      actions={
        <>
          <Button kind="action" pending={pending} pendingWord={fieldsWords.savingHere} onClick={() => void save()}>
            {correcting ? recordWords.saveTheCorrection : props.verb}
          </Button>
          {props.onCancel ? <Button onClick={props.onCancel}>{fieldsWords.back}</Button> : props.cannotDo}
        </>
      }
    >
      {!correcting && BEFORE_OPENING.includes(step) && <AgreementLine />}
      {!correcting && !watching && <CautionList step={step} />}
      <FormProvider value={{ draft, set: form.set, open }}>
        {props.children}
        {Array.isArray(draft.photos) && <PhotosField subjects={props.photoSubjects?.(draft) ?? []} />}
        {correcting && (
          <div data-open-field={open.has("why") ? "" : undefined}>
            <TextArea
              label={recordWords.whyItIsCorrected}
              hint={recordWords.firstRecordStays}
              error={open.get("why")}
              value={why}
              maxLength={1000}
              onChange={(event) => setWhy(event.target.value)}
            />
          </div>
        )}
      </FormProvider>
      {!correcting && watching && <CautionList step={step} />}
      {problems.some(({ path }) => path === STORAGE) && <StorageFull />}
      {problems.length > 0 && problems.every(({ path }) => path !== STORAGE) && (
        <p role="alert" className="font-medium text-refused">
          {recordWords.stillOpenAbove(problems.length)}
          {problems.some(({ path }) => !isShown(path)) && ` (${problems.map(({ path }) => path).join(", ")})`}
        </p>
      )}
      {props.preview !== false && !correcting && <Preview step={step} draft={draft} />}
    </StepFrame>
  );

  function isShown(path: string): boolean {
    return path === "why" || path.startsWith("evidence.");
  }
  /** What a correction or a completion starts from: the record that stands there now. */
  function earlierEvidence(): Draft | null {
    const standing = job.state.steps.find((each) => each.step === step);
    const from = correcting ?? (standing?.status === "cannot-say" ? standing.entry : null);
    const entry = job.entries.find(({ id }) => id === from);
    if (entry?.kind !== "step-recorded") return null;
    const evidence = entry.body.evidence as Draft;
    return correcting || !props.carry ? evidence : props.carry(evidence);
  }
}
