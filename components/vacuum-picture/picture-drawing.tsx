import type { ReactNode } from "react";
import type { State } from "@/components/ui/state-mark";
import { EventShape } from "./event-shape";
import type { Label } from "./labels";
import type { PictureLayout } from "./layout";

/** Told apart by their dashes, so that a black and white copy still says which is which. */
const dashOf = { water: "1.5 4", limit: "12 3 2 3", target: "9 5" } as const;

const settleInk: Record<State, string> = {
  proven: "var(--proven)",
  working: "var(--working)",
  waiting: "var(--waiting)",
  "needs-you": "var(--needs-you)",
  refused: "var(--refused)",
  "cannot-say": "var(--cannot-say)",
};

/** The inside of the picture, from a finished layout. */
export function PictureDrawing(props: {
  layout: PictureLayout;
  id: string;
  textPx: number;
  unit: string;
  state?: State | undefined;
  note?: ReactNode;
}) {
  const { layout, id, textPx } = props;
  const { plot } = layout;
  return (
    <g fontSize={textPx} fill="currentColor" fontFamily="var(--font-sans)">
      <defs>
        <pattern id={`${id}-hatch`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V6" stroke="var(--ink-soft)" strokeWidth="1.4" opacity="0.55" />
        </pattern>
      </defs>
      {layout.isolatedX !== null && (
        <rect
          x={layout.isolatedX}
          y={plot.top}
          width={Math.max(0, plot.right - layout.isolatedX)}
          height={plot.bottom - plot.top}
          fill="var(--sunk)"
        />
      )}
      <Axes layout={layout} textPx={textPx} unit={props.unit} />
      {layout.lines.map((line) => (
        <line
          key={line.key}
          x1={plot.left}
          x2={plot.right}
          y1={line.y}
          y2={line.y}
          stroke="var(--ink)"
          strokeWidth={1.25}
          strokeDasharray={dashOf[line.key]}
          data-line={line.key}
        />
      ))}
      {layout.band && (
        <g data-part="band">
          <path d={layout.band.area} fill={`url(#${id}-hatch)`} />
          <path d={layout.band.mid} fill="none" stroke="var(--ink-soft)" strokeWidth="1.25" strokeDasharray="4 3" />
        </g>
      )}
      <Marks layout={layout} textPx={textPx} />
      <g fill="none" stroke="var(--ink)" strokeWidth="2" strokeLinejoin="round" strokeLinecap="round" data-part="trace">
        {layout.traces.map((path) => (
          <path key={path.slice(0, 24)} d={path} />
        ))}
      </g>
      {layout.dots.map((dot) => (
        <circle key={`${dot.x} ${dot.y}`} cx={dot.x} cy={dot.y} r="3" data-part="dot" />
      ))}
      {layout.end && <circle cx={layout.end.x} cy={layout.end.y} r="3.5" data-part="end" />}
      {layout.settle && (
        <g stroke={settleInk[props.state ?? "working"]} strokeWidth="2" data-part="settles">
          <path
            d={`M${plot.right + 6} ${layout.settle.hiY}V${layout.settle.loY}M${plot.right + 2} ${layout.settle.hiY}h8M${plot.right + 2} ${layout.settle.loY}h8`}
            fill="none"
          />
          <circle
            cx={plot.right + 6}
            cy={layout.settle.y}
            r="3.5"
            fill={settleInk[props.state ?? "working"]}
            stroke="none"
          />
        </g>
      )}
      {layout.labels.map((label) => (
        <LineWords key={label.key} label={label} fromX={plot.right} textPx={textPx} bracket={layout.settle !== null} />
      ))}
      {props.note && (
        <text
          x={(plot.left + plot.right) / 2}
          y={(plot.top + plot.bottom) / 2}
          textAnchor="middle"
          fill="var(--ink-soft)"
        >
          {props.note}
        </text>
      )}
    </g>
  );
}

function Axes({ layout, textPx, unit }: { layout: PictureLayout; textPx: number; unit: string }) {
  const { plot } = layout;
  // A grid line under a dashed one would fill its gaps and make it another line.
  const isCovered = (y: number) => layout.lines.some((line) => Math.abs(line.y - y) < 2);
  return (
    <g>
      {layout.pressureTicks.map((tick) => (
        <g key={tick.at}>
          <line
            x1={plot.left - 3}
            x2={tick.words && !isCovered(tick.y) ? plot.right : plot.left}
            y1={tick.y}
            y2={tick.y}
            stroke={tick.words ? "var(--hairline)" : "var(--edge)"}
          />
          {tick.words && (
            <text
              x={plot.left - 6}
              y={tick.y + textPx * 0.34}
              textAnchor="end"
              fill="var(--ink-soft)"
              style={{ fontVariantNumeric: "tabular-nums" }}
            >
              {tick.words}
            </text>
          )}
        </g>
      ))}
      <text
        x={plot.left - 6}
        y={plot.top - textPx * 0.55}
        textAnchor="end"
        fill="var(--ink-soft)"
        fontSize={textPx * 0.92}
      >
        {unit}
      </text>
      {layout.timeTicks.map((tick) => (
        <g key={tick.at}>
          <line x1={tick.x} x2={tick.x} y1={plot.bottom} y2={plot.bottom + 4} stroke="var(--edge)" />
          <text x={tick.x} y={plot.bottom + textPx * 1.5} textAnchor="middle" fill="var(--ink-soft)">
            {tick.words}
          </text>
        </g>
      ))}
      <path d={`M${plot.left} ${plot.top}V${plot.bottom}H${plot.right}`} fill="none" stroke="var(--edge)" />
    </g>
  );
}

function Marks({ layout, textPx }: { layout: PictureLayout; textPx: number }) {
  const { plot, laneHeightPx } = layout;
  return (
    <g data-part="marks">
      {layout.marks.map((mark) => {
        const shapeY = plot.top - laneHeightPx * ((mark.lane ?? 0) + 0.55);
        const side = mark.anchor === "start" ? 1 : -1;
        return (
          <g key={mark.key}>
            <line
              x1={mark.x}
              x2={mark.x}
              y1={mark.lane === null ? plot.top : shapeY}
              y2={plot.bottom}
              stroke="var(--ink)"
              strokeWidth={mark.kind === "valve-closed" ? 1.5 : 1}
              strokeDasharray={mark.kind === "valve-closed" ? undefined : "2 3"}
            />
            {mark.lane !== null && (
              <>
                <g transform={`translate(${mark.x} ${shapeY})`}>
                  <EventShape kind={mark.kind} />
                </g>
                <text
                  x={mark.x + side * textPx * 0.75}
                  y={shapeY + textPx * 0.34}
                  textAnchor={mark.anchor}
                  style={{ paintOrder: "stroke" }}
                  stroke="var(--ground)"
                  strokeWidth="4"
                >
                  {mark.words}
                </text>
              </>
            )}
          </g>
        );
      })}
    </g>
  );
}

function LineWords(props: { label: Label; fromX: number; textPx: number; bracket: boolean }) {
  const { label, fromX, textPx } = props;
  const lineX = fromX + (props.bracket ? 14 : 2);
  const wordsX = fromX + textPx * 0.5 + (props.bracket ? 20 : 12);
  const firstY = label.y - ((label.words.length - 1) * 1.2 * textPx) / 2 + textPx * 0.34;
  return (
    <g data-label={label.key}>
      <path d={`M${lineX} ${label.lineY}L${wordsX - 3} ${label.y}`} stroke="var(--edge)" fill="none" />
      {label.words.map((words, index) => (
        <text
          key={words}
          x={wordsX}
          y={firstY + index * 1.2 * textPx}
          fontWeight={label.key === "last" && index === 0 ? 700 : 400}
          fill={index > 0 ? "var(--ink-soft)" : "var(--ink)"}
          style={{ fontVariantNumeric: "tabular-nums" }}
        >
          {words}
        </text>
      ))}
    </g>
  );
}
