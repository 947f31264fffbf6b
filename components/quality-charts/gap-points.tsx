"use client";

import { Table } from "@/components/ui/table";
import type { RareEventChart } from "@/lib/quality";
import { LeftAxis, MarkLink } from "./axes";
import { ChartFigure } from "./chart-figure";
import { layoutGaps } from "./gap-points-layout";

export interface GapWords {
  readonly key: string;
  readonly href: string;
  /** "Job 1204, closed Wed 25 Nov". */
  readonly words: string;
}

/** Control chart of the good jobs between one that came back and the next, oldest first. */
export function GapPoints({ chart, gaps }: { chart: RareEventChart; gaps: readonly GapWords[] }) {
  const signals = chart.gaps.filter(({ signal }) => signal !== null).length;
  const sentence = (index: number) => {
    const { gap, signal } = chart.gaps[index]!;
    const beyond =
      signal === "sooner" ? " Sooner than chance explains." : signal === "later" ? " Later than chance explains." : "";
    return `${gap} good jobs before ${gaps[index]!.words} came back.${beyond}`;
  };
  return (
    <ChartFigure
      title="Good jobs between one callback and the next"
      sentence={`${chart.gaps.length} gaps, the usual one ${chart.centre} jobs; ${signals} beyond the limits of chance.`}
      heightPx={(_width, textPx) => textPx * 20}
      caption="Up is good. A point under the lower line came sooner, one above the upper line later than chance alone explains (27 in 10 000)."
      draw={(frame) => {
        const layout = layoutGaps(chart, frame);
        const { plot } = layout;
        const lines = [
          { y: layout.limitYs[1], words: "later" },
          { y: layout.centreY, words: "usual" },
          { y: layout.limitYs[0], words: "sooner" },
        ];
        return (
          <>
            <LeftAxis plot={plot} ticks={layout.ticks} textPx={frame.textPx} />
            {lines.map(({ y, words }) => (
              <g key={words}>
                <line
                  x1={plot.left}
                  x2={plot.right}
                  y1={y}
                  y2={y}
                  stroke="var(--ink)"
                  strokeDasharray={words === "usual" ? undefined : "6 4"}
                />
                <text x={plot.right + frame.textPx * 0.4} y={y + frame.textPx * 0.34}>
                  {words}
                </text>
              </g>
            ))}
            <path d={layout.path} fill="none" stroke="var(--edge)" />
            {layout.points.map(({ x, y, signal }, index) => (
              <MarkLink key={gaps[index]!.key} href={gaps[index]!.href} name={sentence(index)} x={x} y={y}>
                {signal ? (
                  <path d={`M${x} ${y - 7}l7 7l-7 7l-7 -7z`} fill="var(--needs-you)" />
                ) : (
                  <circle cx={x} cy={y} r="4" fill="var(--action)" />
                )}
              </MarkLink>
            ))}
            <text
              x={(plot.left + plot.right) / 2}
              y={plot.bottom + frame.textPx * 1.8}
              textAnchor="middle"
              fill="var(--ink-soft)"
            >
              callbacks in the order their jobs were closed
            </text>
          </>
        );
      }}
      table={
        <Table
          caption="Oldest first"
          rows={chart.gaps.map((gap, index) => ({ ...gap, ...gaps[index]! }))}
          rowKey={({ key }) => key}
          maxHeight="20rem"
          columns={[
            { key: "job", header: "Came back", cell: ({ words, href }) => <a href={href}>{words}</a> },
            { key: "gap", header: "Good jobs before it", numeric: true, cell: ({ gap }) => gap },
            {
              key: "signal",
              header: "Chance",
              cell: ({ signal }) => (signal ? `${signal} than it explains` : "explains it"),
            },
          ]}
        />
      }
    />
  );
}
