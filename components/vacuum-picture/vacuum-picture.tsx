import { type ReactNode, useId } from "react";
import { type State, StateMark } from "@/components/ui/state-mark";
import { vacuumPictureWords } from "@/lib/words/en/vacuum-picture";
import { layoutPicture, type PictureLayout } from "./layout";
import { PictureDrawing } from "./picture-drawing";
import { listPictureFacts, pictureSentence } from "./picture-words";
import type { PictureUnit } from "./scale";
import type { PictureFrame, PictureSubject } from "./subject";

export type VacuumPictureProps = PictureSubject &
  Partial<Omit<PictureFrame, "unit">> & {
    /** Names the picture: "Hold on circuit 2, 14 March". */
    title: string;
    unit?: PictureUnit;
    /** The engine's sentence under the picture, with its state. */
    verdict?: { state: State; word?: string; sentence: string } | undefined;
    /** Still being fetched: says so instead of showing an empty plot. */
    loading?: boolean;
    /** The figures under the picture, folded away; a live picture that reads them out itself leaves them off. */
    figures?: boolean;
    overlay?: ReactNode;
    /** A layout of the same subject and frame already at hand. */
    layout?: PictureLayout;
    /** Drawn a second time for a phone, where the usual size would leave its words too small to read. */
    alsoNarrow?: boolean;
  };

export const usualFrame = { widthPx: 760, heightPx: 400, textPx: 13 } as const;
const NARROW = { widthPx: 380, heightPx: 300 } as const;

/** The vacuum picture, drawn without a browser: for pages, print and certificates. */
export function VacuumPicture(props: VacuumPictureProps) {
  const { unit = "micron", verdict, loading = false, figures = true } = props;
  const frame = { ...usualFrame, ...definedFrame(props), unit };
  return (
    <figure className="keep-together grid gap-2">
      <div className="relative">
        {props.alsoNarrow ? (
          <>
            <div className="hidden min-[40rem]:block print:block">
              <Plot {...props} frame={frame} />
            </div>
            <div className="min-[40rem]:hidden print:hidden">
              <Plot {...props} frame={{ ...frame, ...NARROW }} />
            </div>
          </>
        ) : (
          <Plot {...props} frame={frame} />
        )}
        {props.overlay}
      </div>
      {verdict && (
        <figcaption className="max-w-prose">
          <StateMark state={verdict.state} {...(verdict.word && { word: verdict.word })} />
          {". "}
          {verdict.sentence}
        </figcaption>
      )}
      {figures && !loading && (
        <details className="no-print text-small">
          <summary className="w-fit cursor-pointer py-1 text-ink-soft">{vacuumPictureWords.figures}</summary>
          <dl className="grid grid-cols-[max-content_1fr] gap-x-4 gap-y-0.5 pt-1 tabular-nums">
            {listPictureFacts(props, unit, props.zone).map((fact) => (
              <div key={`${fact.term} ${fact.value}`} className="contents">
                <dt className="text-ink-soft">{fact.term}</dt>
                <dd>{fact.value}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
    </figure>
  );
}

/** The picture itself, in one size. */
function Plot(props: VacuumPictureProps & { frame: PictureFrame }) {
  const { title, frame, verdict, loading } = props;
  const { unit } = frame;
  const id = useId();
  const layout = props.layout ?? layoutPicture(props, frame);
  const empty = layout.traces.length === 0 && layout.dots.length === 0;
  return (
    <svg
      viewBox={`0 0 ${frame.widthPx} ${frame.heightPx}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
      className="block h-auto w-full text-ink"
      style={{ maxWidth: frame.widthPx * 1.35 }}
    >
      <title id={`${id}-title`}>{title}</title>
      <desc id={`${id}-desc`}>{loading ? vacuumPictureWords.beingFetched : pictureSentence(props, unit)}</desc>
      <PictureDrawing
        layout={layout}
        id={id}
        textPx={frame.textPx}
        unit={unit}
        state={verdict?.state}
        note={loading ? vacuumPictureWords.fetching : empty ? vacuumPictureWords.noReadingsYet : undefined}
      />
    </svg>
  );
}

/** The frame's parts that were really given: an undefined must not push a usual value aside. */
function definedFrame({ widthPx, heightPx, textPx, span, closeUp, zone, gapAfterS, lastWord }: VacuumPictureProps) {
  const given = { widthPx, heightPx, textPx, span, closeUp, zone, gapAfterS, lastWord };
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as Partial<PictureFrame>;
}
