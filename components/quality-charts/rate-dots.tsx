"use client";

import { Table } from "@/components/ui/table";
import { BottomAxis, MarkLink } from "./axes";
import { ChartFigure } from "./chart-figure";
import { shareWords } from "./frame";
import { layoutRateDots, type RateRow, rateDotsHeightPx } from "./rate-dots-layout";

/** Share of jobs that came back, a row a group, each dot with its interval and a way to its jobs. */
export function RateDots(props: { title: string; rows: readonly RateRow[]; hrefs: Readonly<Record<string, string>> }) {
  const { title, rows, hrefs } = props;
  return (
    <ChartFigure
      title={title}
      sentence={rows.map(rateSentence).join(" ")}
      heightPx={(_width, textPx) => rateDotsHeightPx(rows.length, textPx)}
      caption="Dot: share of followed jobs that came back. Line: 95 % interval (Wilson)."
      draw={(frame) => {
        const layout = layoutRateDots(rows, frame);
        const { textPx } = frame;
        return (
          <>
            <BottomAxis plot={layout.plot} ticks={layout.ticks} textPx={textPx} words="came back" lines />
            {layout.rows.map(({ key, name, counts, y, mark }, index) => (
              <g key={key} data-row={key}>
                <text x={0} y={y - textPx * 0.1} fontWeight="600">
                  {name}
                </text>
                <text x={0} y={y + textPx * 1.1} fill="var(--ink-soft)" style={{ fontVariantNumeric: "tabular-nums" }}>
                  {counts}
                </text>
                {mark ? (
                  <MarkLink href={hrefs[key]} name={rateSentence(rows[index]!)} x={mark.x} y={y}>
                    <line x1={mark.lowX} x2={mark.highX} y1={y} y2={y} stroke="var(--ink)" strokeWidth="2" />
                    <circle cx={mark.x} cy={y} r="6" fill="var(--action)" stroke="var(--ground)" strokeWidth="1.5" />
                  </MarkLink>
                ) : (
                  <text x={layout.plot.left} y={y + textPx * 0.34} fill="var(--ink-soft)">
                    {" no job to say it from"}
                  </text>
                )}
              </g>
            ))}
          </>
        );
      }}
      table={
        <Table
          caption={title}
          captionHidden
          rows={rows}
          rowKey={({ key }) => key}
          columns={[
            { key: "name", header: "Proof", cell: ({ name }) => name },
            { key: "jobs", header: "Followed jobs", numeric: true, cell: ({ jobs }) => jobs },
            { key: "callbacks", header: "Came back", numeric: true, cell: ({ callbacks }) => callbacks },
            {
              key: "rate",
              header: "Share",
              numeric: true,
              cell: ({ rate }) => (rate === null ? "none" : shareWords(rate)),
            },
            {
              key: "interval",
              header: "95 % interval",
              numeric: true,
              cell: ({ interval95 }) => (interval95 ? interval95.map(shareWords).join(" to ") : "none"),
            },
          ]}
        />
      }
    />
  );
}

function rateSentence({ name, jobs, callbacks, rate, interval95 }: RateRow): string {
  if (rate === null || !interval95) return `${name}: no followed job.`;
  return `${name}: ${callbacks} of ${jobs} jobs came back, ${shareWords(rate)} (${interval95.map(shareWords).join(" to ")}).`;
}
