"use client";

import { Table } from "@/components/ui/table";
import type { QualityReport } from "@/lib/quality";
import { BottomAxis, LeftAxis } from "./axes";
import { ChartFigure } from "./chart-figure";
import { shareWords } from "./frame";
import { layoutSurvival, rowsByWeek } from "./survival-steps-layout";

/** Told apart by their dashes too, for a black and white copy. */
const dashOf = { sound: undefined, weak: "6 4" } as const;

/** Share of jobs still without a callback over the days since they were closed; the ends open the jobs. */
export function SurvivalSteps(props: {
  survival: QualityReport["survival"];
  windowDays: number;
  hrefs: Readonly<Record<"sound" | "weak", string>>;
}) {
  const { survival, windowDays, hrefs } = props;
  const lastOf = (key: "sound" | "weak") => survival[key].at(-1)?.survival ?? 1;
  return (
    <ChartFigure
      title="Jobs still without a callback, by days since closing"
      sentence={`After ${windowDays} days ${shareWords(lastOf("sound"))} of soundly and ${shareWords(lastOf("weak"))} of weakly proven jobs had no callback.`}
      heightPx={(_width, textPx) => textPx * 22}
      caption="Kaplan-Meier; young jobs count until today. Shaded: 95 % interval. Solid: strong or fair proof. Dashed: weak or none."
      draw={(frame) => {
        const { plot, shareTicks, dayTicks, lines } = layoutSurvival(survival, windowDays, frame);
        return (
          <>
            <LeftAxis plot={plot} ticks={shareTicks} textPx={frame.textPx} />
            <BottomAxis plot={plot} ticks={dayTicks} textPx={frame.textPx} words="days since closing" />
            {lines.map(({ key, path, band, end }) => (
              <g key={key} data-line={key}>
                <path d={band} fill="var(--ink-soft)" opacity={key === "weak" ? 0.22 : 0.14} />
                <path d={path} fill="none" stroke="var(--ink)" strokeWidth="2" strokeDasharray={dashOf[key]} />
                <a href={hrefs[key]} aria-label={`${end.words}: open the jobs`} className="mark-link">
                  {end.words.split(" proof ").map((words, index) => (
                    <text
                      key={words}
                      x={end.x + frame.textPx * 0.5}
                      y={end.y + frame.textPx * (0.3 + (index - 0.5) * 1.15)}
                      fontWeight={index === 0 ? 600 : 400}
                      textDecoration="underline"
                      fill="var(--action)"
                    >
                      {index === 0 ? `${words} proof` : words}
                    </text>
                  ))}
                </a>
              </g>
            ))}
          </>
        );
      }}
      table={
        <div className="grid gap-4">
          {(["sound", "weak"] as const).map((key) => (
            <Table
              key={key}
              caption={key === "sound" ? "Strong or fair proof" : "Weak proof or none"}
              rows={rowsByWeek(survival[key])}
              rowKey={({ day }) => String(day)}
              maxHeight="16rem"
              empty={<p className="text-ink-soft">{key === "sound" ? "Strong or fair" : "Weak"} proof: no callback.</p>}
              columns={[
                { key: "day", header: "Up to day", numeric: true, cell: ({ day }) => day },
                { key: "risk", header: "At risk", numeric: true, cell: ({ atRisk }) => atRisk },
                { key: "events", header: "Came back", numeric: true, cell: ({ events }) => events },
                { key: "s", header: "Still without", numeric: true, cell: (point) => shareWords(point.survival) },
                {
                  key: "i",
                  header: "95 % interval",
                  numeric: true,
                  cell: ({ interval95 }) => (interval95 ? interval95.map(shareWords).join(" to ") : "none"),
                },
              ]}
            />
          ))}
        </div>
      }
    />
  );
}
