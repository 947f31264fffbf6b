import { type ReactNode, useId } from "react";
import type { Frame } from "./frame";

const NARROW_PX = 340;
const WIDE_PX = 640;

/**
 * A chart drawn twice, for a phone's width and for any other, of which a browser shows one; its figures stand folded
 * behind it. Marks are links: the drawing is a group, not a picture without parts.
 */
export function ChartFigure(props: {
  title: string;
  /** What the chart says, for whoever does not see it. */
  sentence: string;
  heightPx: (widthPx: number, textPx: number) => number;
  draw: (frame: Frame, id: string) => ReactNode;
  table?: ReactNode;
  caption?: ReactNode;
}) {
  const id = useId();
  const svg = (widthPx: number, textPx: number, look: string) => {
    const frame = { widthPx, textPx, heightPx: props.heightPx(widthPx, textPx) };
    const own = `${id}-${widthPx}`;
    return (
      // biome-ignore lint/a11y/useSemanticElements: a drawing of links is no set of form fields
      <svg
        viewBox={`0 0 ${frame.widthPx} ${frame.heightPx}`}
        role="group"
        aria-labelledby={`${own}-title`}
        aria-describedby={`${own}-desc`}
        className={`h-auto w-full text-ink ${look}`}
        style={{ maxWidth: widthPx * 1.2 }}
        fontSize={textPx}
        fill="currentColor"
        fontFamily="var(--font-sans)"
      >
        <title id={`${own}-title`}>{props.title}</title>
        <desc id={`${own}-desc`}>{props.sentence}</desc>
        {props.draw(frame, own)}
      </svg>
    );
  };
  return (
    <figure className="keep-together grid content-start gap-2">
      {svg(NARROW_PX, 12, "block min-[40rem]:hidden")}
      {svg(WIDE_PX, 13.5, "hidden min-[40rem]:block")}
      {props.caption && <figcaption className="max-w-prose text-small text-ink-soft">{props.caption}</figcaption>}
      {props.table && (
        <details className="text-small">
          <summary className="w-fit cursor-pointer py-1 text-ink-soft">Figures of this chart</summary>
          <div className="pt-1">{props.table}</div>
        </details>
      )}
    </figure>
  );
}
