"use client";

import { type ReactNode, useMemo, useState } from "react";
import { Button } from "@/components/ui/button";
import { classNames } from "@/components/ui/class-names";
import { LoadingLines } from "@/components/ui/progress";
import { StateMark } from "@/components/ui/state-mark";
import { TextArea } from "@/components/ui/text-input";
import type { EntryContent, StepId, StepRecord } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import type { EntryId } from "@/lib/ids";
import { closingWords } from "@/lib/words/en/closing";
import { fieldsWords } from "@/lib/words/en/fields";
import { recordWords } from "@/lib/words/en/record";
import { stepSentencesWords } from "@/lib/words/en/step-sentences";
import { useDevice } from "../device/device-context";
import { type Draft, evidenceOf } from "../form/draft";
import { FormProvider, withoutAnswered } from "../form/form-context";
import { useDraft } from "../form/use-draft";
import { settleLive } from "../instruments/settle-live";
import { PhotosField } from "../pictures/photos-field";
import { AgreementLine } from "./agreement";
import { CautionList } from "./caution-list";
import { type EntryProblem, PROGRAM, STORAGE } from "./entry-check";
import { OpenElsewhere, StorageFull } from "./form-notices";
import { useJobHere } from "./job-context";
import { overrideMark } from "./override-mark";
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
    /** While an instrument is being watched it comes first, with the whole width, and the cautions below it. */
    isWatching?: (draft: Draft) => boolean;
    /** What to do now, where the readings so far ask for something else than the step's first sentence. */
    sentence?: (draft: Draft) => string | null;
    /** The large button while there is nothing to record yet. */
    start?: (draft: Draft) => ReactNode;
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
  const open = useMemo(
    () => new Map(problems.map(({ path, message }) => [path.replace(/^evidence\./, ""), message])),
    [problems],
  );

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

  const watching = !correcting && (props.isWatching?.(draft) ?? false);
  const start = correcting ? null : props.start?.(draft);
  function set(path: string, value: unknown) {
    form.set(path, value);
    setProblems((found) => {
      const left = withoutAnswered(new Map(found.map((each) => [each.path.replace(/^evidence\./, ""), each])), path);
      return left.size === found.length ? found : [...left.values()];
    });
  }

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

  const asked = job.state.overrides.filter((each) => each.step === step);
  const warnings = !correcting && (
    <>
      {asked.map((each) => (
        <p key={each.ask}>
          <StateMark {...overrideMark(each.answer)} /> {each.why}
          {each.answer === "none" && <span className="text-ink-soft"> {recordWords.theAnswerComes}</span>}
          {each.answerWhy && <span className="text-ink-soft"> {closingWords.answer(each.answerWhy)}</span>}
        </p>
      ))}
      {BEFORE_OPENING.includes(step) && <AgreementLine />}
      <CautionList step={step} />
    </>
  );
  return (
    <FormProvider value={{ draft, set, open }}>
      <StepFrame
        sentence={
          correcting ? recordWords.correct(stepName(step)) : (props.sentence?.(draft) ?? stepSentencesWords[step])
        }
        obstacle={
          problems.some(({ path }) => path === STORAGE) ? (
            <StorageFull />
          ) : (
            problems.length > 0 && (
              <p role="alert" className="font-medium text-refused">
                {open.get(PROGRAM) ?? recordWords.stillOpenAbove}
              </p>
            )
          )
        }
        actions={
          <>
            {start || (
              <Button kind="action" pending={pending} pendingWord={fieldsWords.savingHere} onClick={() => void save()}>
                {correcting ? recordWords.saveTheCorrection : props.verb}
              </Button>
            )}
            {props.onCancel ? <Button onClick={props.onCancel}>{fieldsWords.back}</Button> : props.cannotDo}
          </>
        }
      >
        <div
          className={classNames(
            "grid grid-cols-[minmax(0,1fr)] gap-5",
            !watching && !correcting && "desk:grid-cols-[minmax(0,1fr)_17rem] desk:items-start desk:gap-8",
          )}
        >
          {!watching && <div className="grid gap-5 desk:order-2">{warnings}</div>}
          <div className="grid grid-cols-[minmax(0,1fr)] gap-5">
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
            {watching && warnings}
            {props.preview !== false && !correcting && <Preview step={step} draft={draft} />}
          </div>
        </div>
      </StepFrame>
    </FormProvider>
  );

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
