"use client";

import { Table } from "@/components/ui/table";
import { LeftAxis, MarkLink } from "./axes";
import { ChartFigure } from "./chart-figure";
import { shareWords } from "./frame";
import { layoutMonths, type MonthRate } from "./month-dots-layout";

/** Share of each month's jobs that came back; months whose jobs are not all followed yet are left out. */
export function MonthDots({
  months,
  hrefs,
}: {
  months: readonly MonthRate[];
  hrefs: Readonly<Record<string, string>>;
}) {
  const sentence = ({ words, jobs, callbacks }: MonthRate) => `${words}: ${callbacks} of ${jobs} jobs came back.`;
  return (
    <ChartFigure
      title="Jobs that came back, by the month they were closed"
      sentence={months.map(sentence).join(" ")}
      heightPx={(_width, textPx) => textPx * 18}
      caption="Dot: share of the month's jobs that came back. Line: 95 % interval (Wilson)."
      draw={(frame) => {
        const layout = layoutMonths(months, frame);
        return (
          <>
            <LeftAxis plot={layout.plot} ticks={layout.rateTicks} textPx={frame.textPx} />
            {layout.months.map(({ month, x, y, lowY, highY, words }, index) => (
              <g key={month}>
                <MarkLink href={hrefs[month]} name={sentence(months[index]!)} x={x} y={y}>
                  <line x1={x} x2={x} y1={lowY} y2={highY} stroke="var(--ink)" strokeWidth="1.5" />
                  <circle cx={x} cy={y} r="5" fill="var(--action)" stroke="var(--ground)" />
                </MarkLink>
                {words && (
                  <text x={x} y={layout.plot.bottom + frame.textPx * 1.6} textAnchor="middle" fill="var(--ink-soft)">
                    {words}
                  </text>
                )}
              </g>
            ))}
          </>
        );
      }}
      table={
        <Table
          caption="By month of closing"
          captionHidden
          rows={months}
          rowKey={({ month }) => month}
          columns={[
            { key: "month", header: "Month", cell: ({ month, words }) => <a href={hrefs[month]}>{words}</a> },
            { key: "jobs", header: "Jobs", numeric: true, cell: ({ jobs }) => jobs },
            { key: "callbacks", header: "Came back", numeric: true, cell: ({ callbacks }) => callbacks },
            {
              key: "rate",
              header: "Share",
              numeric: true,
              cell: ({ jobs, callbacks }) => shareWords(callbacks / jobs),
            },
          ]}
        />
      }
    />
  );
}
