import { pictureSentence } from "./picture-words";
import type { PictureUnit } from "./scale";
import { layoutSparkline } from "./sparkline-layout";
import type { PictureSubject } from "./subject";

/** The small copy for lists: trace, target, and when the valve closed. */
export function VacuumSparkline(
  props: Pick<PictureSubject, "trace" | "targetPa" | "isolatedAtS" | "settlesAt"> & {
    title: string;
    unit?: PictureUnit;
    widthPx?: number;
    heightPx?: number;
  },
) {
  const { widthPx = 128, heightPx = 32, unit = "micron" } = props;
  const small = layoutSparkline(props, widthPx, heightPx);
  return (
    <svg
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      width={widthPx}
      height={heightPx}
      role="img"
      aria-label={`${props.title}: ${pictureSentence(props, unit)}`}
      className="inline-block align-middle text-ink"
    >
      {small.isolatedX !== null && (
        <path d={`M${small.isolatedX} 0V${heightPx}`} stroke="var(--edge)" strokeWidth="1" />
      )}
      {small.targetY !== null && (
        <path d={`M0 ${small.targetY}H${widthPx}`} stroke="var(--edge)" strokeWidth="1" strokeDasharray="4 3" />
      )}
      {small.traces.map((path) => (
        <path
          key={path.slice(0, 24)}
          d={path}
          fill="none"
          stroke="currentColor"
          strokeWidth="1.5"
          strokeLinejoin="round"
        />
      ))}
      {small.dots.map((dot) => (
        <circle key={`${dot.x} ${dot.y}`} cx={dot.x} cy={dot.y} r="1.75" fill="currentColor" />
      ))}
      {small.settlesY !== null && <circle cx={widthPx - 3} cy={small.settlesY} r="2.5" fill="var(--ink-soft)" />}
    </svg>
  );
}
