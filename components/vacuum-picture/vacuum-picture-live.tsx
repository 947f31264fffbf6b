"use client";

import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from "react";
import { vacuumPictureWords } from "@/lib/words/en/vacuum-picture";
import { layoutPicture } from "./layout";
import { nearestSample } from "./nearest";
import { clockWords, elapsedWords, pressureWords } from "./scale";
import { VacuumPicture, type VacuumPictureProps } from "./vacuum-picture";

type LiveProps = Omit<VacuumPictureProps, "overlay" | "widthPx" | "layout">;

/**
 * The picture with a cursor: drag, hover or arrow keys read the trace out below it. It draws at the real width of
 * its place, so that words keep their size and one column is one pixel; without `heightPx` it takes a little under half the
 * screen's height.
 */
export function VacuumPictureLive(props: LiveProps) {
  const { trace, unit = "micron", textPx = 13 } = props;
  const place = useRef<HTMLDivElement>(null);
  const [{ widthPx, viewPx }, setRoom] = useState({ widthPx: 760, viewPx: 900 });
  const [cursor, setCursor] = useState<number | undefined>(undefined);

  const heightPx = props.heightPx ?? Math.round(Math.min(560, Math.max(260, Math.min(widthPx * 0.72, viewPx * 0.45))));

  useEffect(() => {
    const element = place.current;
    if (!element) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setRoom({ widthPx: Math.max(320, Math.round(entry.contentRect.width)), viewPx: window.innerHeight });
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  const layout = useMemo(
    () => layoutPicture(props, { ...props, unit, textPx, heightPx, widthPx }),
    [props, unit, textPx, heightPx, widthPx],
  );
  const { plot, span } = layout;
  const index = cursor !== undefined && cursor < trace.atS.length ? cursor : undefined;
  const atS = index === undefined ? undefined : (trace.atS[index] as number);
  const pressurePa = index === undefined ? undefined : (trace.pressureAbsPa[index] as number);

  function point(event: PointerEvent<HTMLDivElement>) {
    const box = event.currentTarget.getBoundingClientRect();
    const fraction = (event.clientX - box.left) / box.width;
    setCursor(nearestSample(trace, span.fromS + fraction * (span.toS - span.fromS)));
  }
  function step(event: KeyboardEvent<HTMLDivElement>) {
    const lengthS = span.toS - span.fromS;
    const from = atS ?? span.toS;
    const targetS = {
      ArrowLeft: from - lengthS / 60,
      ArrowRight: from + lengthS / 60,
      Home: span.fromS,
      End: span.toS,
    }[event.key];
    if (targetS === undefined) return;
    event.preventDefault();
    setCursor(nearestSample(trace, targetS));
  }
  const readOut = atS === undefined || pressurePa === undefined ? undefined : cursorWords(props, atS, pressurePa, unit);

  return (
    <div ref={place} className="grid gap-1">
      <VacuumPicture
        {...props}
        textPx={textPx}
        heightPx={heightPx}
        widthPx={widthPx}
        layout={layout}
        overlay={
          // A slider over time is what reading the trace amounts to: arrows step, the value is said.
          <div
            role="slider"
            tabIndex={0}
            aria-label={vacuumPictureWords.readAtAMoment(props.title)}
            aria-valuemin={0}
            aria-valuemax={Math.round(span.toS - span.fromS)}
            aria-valuenow={Math.round((atS ?? span.toS) - span.fromS)}
            aria-valuetext={readOut ?? vacuumPictureWords.arrowKeys}
            onPointerMove={point}
            onPointerDown={point}
            onPointerLeave={(event) => event.pointerType === "mouse" && setCursor(undefined)}
            onKeyDown={step}
            className="absolute touch-pan-y"
            style={{
              left: `${(plot.left / widthPx) * 100}%`,
              width: `${((plot.right - plot.left) / widthPx) * 100}%`,
              top: `${(plot.top / heightPx) * 100}%`,
              height: `${((plot.bottom - plot.top) / heightPx) * 100}%`,
            }}
          >
            {atS !== undefined && pressurePa !== undefined && (
              <svg
                viewBox={`${plot.left} ${plot.top} ${plot.right - plot.left} ${plot.bottom - plot.top}`}
                preserveAspectRatio="none"
                className="pointer-events-none size-full overflow-visible text-action"
                aria-hidden="true"
              >
                <path d={`M${layout.x(atS)} ${plot.top}V${plot.bottom}`} stroke="currentColor" strokeWidth="1" />
                <circle
                  cx={layout.x(atS)}
                  cy={layout.y(pressurePa)}
                  r="5"
                  fill="none"
                  stroke="currentColor"
                  strokeWidth="2"
                />
              </svg>
            )}
          </div>
        }
      />
      <p aria-hidden="true" className="no-print min-h-[1.5em] text-small tabular-nums text-ink-soft">
        {readOut ?? vacuumPictureWords.touchThePicture}
      </p>
    </div>
  );
}

function cursorWords(props: LiveProps, atS: number, pressurePa: number, unit: "micron" | "Pa" | "mbar") {
  const startS = props.trace.atS[0] ?? 0;
  const parts = [pressureWords(pressurePa, unit)];
  if (props.zone) parts.push(clockWords(atS, props.zone, true));
  if (props.isolatedAtS !== undefined) {
    const sinceS = atS - props.isolatedAtS;
    parts.push(
      sinceS >= 0
        ? vacuumPictureWords.afterIsolation(elapsedWords(sinceS))
        : vacuumPictureWords.beforeIsolation(elapsedWords(-sinceS)),
    );
  } else {
    parts.push(vacuumPictureWords.afterTheStart(elapsedWords(atS - startS)));
  }
  return parts.join(" · ");
}
