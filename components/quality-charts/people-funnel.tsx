"use client";

import { Table } from "@/components/ui/table";
import type { PersonFigures } from "@/lib/quality";
import { BottomAxis, LeftAxis, MarkLink } from "./axes";
import { ChartFigure } from "./chart-figure";
import { shareWords } from "./frame";
import { layoutFunnel } from "./people-funnel-layout";

/** People inside the limits of chance; read in the order of names, never as a ranking. */
export function PeopleFunnel(props: {
  people: readonly PersonFigures[];
  pooledRate: number;
  names: ReadonlyMap<string, string>;
  hrefs: Readonly<Record<string, string>>;
}) {
  const { people, pooledRate, names, hrefs } = props;
  const nameOf = (technician: string) => names.get(technician) ?? "somebody no longer here";
  const sentence = (each: PersonFigures) =>
    `${nameOf(each.technician)}: ${each.callbacks} of ${each.jobs} jobs came back; chance alone explains ${each.limits95[0]} to ${each.limits95[1]}.`;
  const byName = [...people].sort((a, b) => (nameOf(a.technician) < nameOf(b.technician) ? -1 : 1));
  return (
    <ChartFigure
      title="People inside the limits of chance"
      sentence={byName.map(sentence).join(" ")}
      heightPx={(_width, textPx) => textPx * 22}
      caption="Shaded: where 95 of 100 people with the common rate would be. Dotted: 998 of 1000. A diamond lies beyond that. Inside the limits nobody differs from anybody."
      draw={(frame) => {
        const layout = layoutFunnel(people, pooledRate, frame);
        const { plot } = layout;
        return (
          <>
            <LeftAxis plot={plot} ticks={layout.rateTicks} textPx={frame.textPx} />
            <BottomAxis plot={plot} ticks={layout.jobTicks} textPx={frame.textPx} words="followed jobs" />
            <path d={layout.inner} fill="var(--ink-soft)" opacity="0.16" data-part="limits" />
            {layout.outer.map((path) => (
              <path key={path} d={path} fill="none" stroke="var(--edge)" strokeDasharray="2 4" strokeWidth="1.5" />
            ))}
            <line x1={plot.left} x2={plot.right} y1={layout.pooledY} y2={layout.pooledY} stroke="var(--ink)" />
            {layout.dots.map(({ technician, x, y, beyond }, index) => (
              <MarkLink key={technician} href={hrefs[technician]} name={sentence(people[index]!)} x={x} y={y}>
                {beyond ? (
                  <path d={`M${x} ${y - 8}l8 8l-8 8l-8 -8z`} fill="var(--needs-you)" />
                ) : (
                  <circle cx={x} cy={y} r="6" fill="var(--action)" stroke="var(--ground)" strokeWidth="1.5" />
                )}
              </MarkLink>
            ))}
          </>
        );
      }}
      table={
        <Table
          caption="In the order of names"
          rows={byName}
          rowKey={({ technician }) => technician}
          columns={[
            {
              key: "name",
              header: "Person",
              cell: ({ technician }) => <a href={hrefs[technician]}>{nameOf(technician)}</a>,
            },
            { key: "jobs", header: "Followed jobs", numeric: true, cell: ({ jobs }) => jobs },
            { key: "callbacks", header: "Came back", numeric: true, cell: ({ callbacks }) => callbacks },
            {
              key: "limits",
              header: "Chance explains",
              numeric: true,
              cell: ({ limits95 }) => `${limits95[0]} to ${limits95[1]}`,
            },
            {
              key: "shrunk",
              header: "Best estimate",
              numeric: true,
              cell: ({ shrunkRate, shrunk95 }) =>
                shrunkRate === null || !shrunk95
                  ? "cannot say"
                  : `${shareWords(shrunkRate)}${shrunk95[0] === shrunk95[1] ? "" : ` (${shrunk95.map(shareWords).join(" to ")})`}`,
            },
          ]}
        />
      }
    />
  );
}
