"use client";

import { Table } from "@/components/ui/table";
import { type CauseBar, causeBarsHeightPx, layoutCauses } from "./cause-bars-layout";
import { ChartFigure } from "./chart-figure";

/** Callbacks by cause with what they cost; the hatched part came from jobs with weak proof or none. */
export function CauseBars({ causes, hrefs }: { causes: readonly CauseBar[]; hrefs: Readonly<Record<string, string>> }) {
  const sentence = ({ words, callbacks, ofWeakProof, costWords }: CauseBar) =>
    `${words}: ${callbacks} callbacks, ${ofWeakProof} of them after weak proof, ${costWords}.`;
  return (
    <ChartFigure
      title="Callbacks by cause"
      sentence={causes.map(sentence).join(" ")}
      heightPx={(_width, textPx) => causeBarsHeightPx(causes.length, textPx)}
      caption="Length: number of callbacks. Hatched: the job had weak proof or none."
      draw={(frame, id) => (
        <>
          <defs>
            <pattern
              id={`${id}-hatch`}
              width="6"
              height="6"
              patternUnits="userSpaceOnUse"
              patternTransform="rotate(45)"
            >
              <path d="M0 0V6" stroke="var(--ground)" strokeWidth="2.4" />
            </pattern>
          </defs>
          {layoutCauses(causes, frame).bars.map(({ key, wordsY, y, heightPx, widthPx, weakWidthPx }, index) => {
            const cause = causes[index]!;
            return (
              <a key={key} href={hrefs[key]} aria-label={sentence(cause)} className="mark-link">
                <title>{sentence(cause)}</title>
                <rect
                  x={0}
                  y={wordsY - frame.textPx}
                  width={frame.widthPx}
                  height={frame.textPx * 3}
                  fill="transparent"
                />
                <text x={0} y={wordsY}>
                  {cause.words}
                  <tspan fill="var(--ink-soft)">{`  ${cause.costWords}`}</tspan>
                </text>
                <rect x={0} y={y} width={widthPx} height={heightPx} fill="var(--action)" />
                <rect x={0} y={y} width={weakWidthPx} height={heightPx} fill={`url(#${id}-hatch)`} />
                <text
                  x={widthPx + frame.textPx * 0.4}
                  y={y + heightPx * 0.82}
                  style={{ fontVariantNumeric: "tabular-nums" }}
                >
                  {cause.callbacks}
                </text>
              </a>
            );
          })}
        </>
      )}
      table={
        <Table
          caption="Callbacks by cause"
          captionHidden
          rows={causes}
          rowKey={({ key }) => key}
          columns={[
            { key: "cause", header: "Cause", cell: ({ key, words }) => <a href={hrefs[key]}>{words}</a> },
            { key: "n", header: "Callbacks", numeric: true, cell: ({ callbacks }) => callbacks },
            { key: "weak", header: "After weak proof", numeric: true, cell: ({ ofWeakProof }) => ofWeakProof },
            { key: "cost", header: "Cost", numeric: true, cell: ({ costWords }) => costWords },
          ]}
        />
      }
    />
  );
}
