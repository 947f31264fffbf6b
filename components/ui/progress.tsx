import { useId } from "react";
import { controlsWords } from "@/lib/words/en/controls";

const widths = ["92%", "78%", "85%", "64%", "88%", "71%"];

/** Lines where words will stand, while they are fetched. The label says what is on its way. */
export function LoadingLines({ lines = 4, label = controlsWords.loading }: { lines?: number; label?: string }) {
  return (
    <div role="status" className="grid gap-3 py-2">
      <span className="sr-only">{label}</span>
      {Array.from({ length: lines }, (_, line) => (
        <div key={line} className="skeleton-line" style={{ width: widths[line % widths.length] }} />
      ))}
    </div>
  );
}

/** How far something has come, with its words. Without `value` it is under way and cannot say how far. */
export function Progress(props: { label: string; value?: number; max?: number; detail?: string }) {
  const id = useId();
  const { value, max = 100 } = props;
  const fraction = value === undefined ? undefined : Math.min(1, Math.max(0, value / max));
  return (
    <div className="grid gap-1">
      <div className="flex items-baseline justify-between gap-4">
        <span id={id}>{props.label}</span>
        {props.detail && <span className="text-small tabular-nums text-ink-soft">{props.detail}</span>}
      </div>
      <div
        role="progressbar"
        aria-labelledby={id}
        aria-valuemin={0}
        aria-valuemax={max}
        aria-valuenow={value}
        aria-valuetext={props.detail}
        className="h-2 border border-edge bg-raised"
      >
        <div
          className={fraction === undefined ? "skeleton-line h-full" : "h-full bg-working"}
          style={{ width: fraction === undefined ? "100%" : `${fraction * 100}%` }}
        />
      </div>
    </div>
  );
}
