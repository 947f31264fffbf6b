import type { ReactNode } from "react";
import type { Plot, Tick } from "./frame";

const tabular = { fontVariantNumeric: "tabular-nums" } as const;

/** A scale up the left side with faint lines across. */
export function LeftAxis({ plot, ticks, textPx }: { plot: Plot; ticks: readonly Tick[]; textPx: number }) {
  return (
    <g data-part="left-axis">
      {ticks.map(({ at, px, words }) => (
        <g key={at}>
          <line x1={plot.left} x2={plot.right} y1={px} y2={px} stroke="var(--hairline)" />
          <text
            x={plot.left - textPx * 0.5}
            y={px + textPx * 0.34}
            textAnchor="end"
            fill="var(--ink-soft)"
            style={tabular}
          >
            {words}
          </text>
        </g>
      ))}
    </g>
  );
}

/** A scale along the bottom with what it counts under it. */
export function BottomAxis(props: {
  plot: Plot;
  ticks: readonly Tick[];
  textPx: number;
  words?: string;
  lines?: boolean;
}) {
  const { plot, ticks, textPx } = props;
  return (
    <g data-part="bottom-axis">
      <line x1={plot.left} x2={plot.right} y1={plot.bottom} y2={plot.bottom} stroke="var(--edge)" />
      {ticks.map(({ at, px, words }) => (
        <g key={at}>
          <line
            x1={px}
            x2={px}
            y1={props.lines ? plot.top : plot.bottom}
            y2={plot.bottom + 4}
            stroke={props.lines ? "var(--hairline)" : "var(--edge)"}
          />
          <text x={px} y={plot.bottom + textPx * 1.4} textAnchor="middle" fill="var(--ink-soft)" style={tabular}>
            {words}
          </text>
        </g>
      ))}
      {props.words && (
        <text
          x={(plot.left + plot.right) / 2}
          y={plot.bottom + textPx * 2.7}
          textAnchor="middle"
          fill="var(--ink-soft)"
        >
          {props.words}
        </text>
      )}
    </g>
  );
}

/** A mark that opens the jobs behind it; a finger finds it though it is small. */
export function MarkLink(props: { href: string | undefined; name: string; x: number; y: number; children: ReactNode }) {
  return (
    <a href={props.href} className="mark-link">
      <title>{props.name}</title>
      <circle cx={props.x} cy={props.y} r="13" fill="transparent" />
      {props.children}
    </a>
  );
}
