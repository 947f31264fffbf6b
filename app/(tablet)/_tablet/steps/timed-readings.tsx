"use client";

import { type ReactNode, useEffect, useRef } from "react";
import { Button } from "@/components/ui/button";
import { StateMark } from "@/components/ui/state-mark";
import { readingsWords } from "@/lib/words/en/readings";
import { useNow } from "../device/device-context";
import { useWakeLock } from "../device/use-wake-lock";
import { useForm } from "../form/form-context";
import { PadSheet } from "../form/pad-field";
import { useLinkedGauges } from "../instruments/linked-gauges";
import { LinkedGauges, LinkGauge, RadioGauges, WritingMark } from "../instruments/radio-gauges";
import { startLive } from "../instruments/start-live";
import { useLiveRecording } from "../instruments/use-live-recording";
import { stopwatchWords } from "../today/time-words";
import type { QuantityName } from "../units/quantity-kinds";
import { useUnits } from "../units/unit-choices";
import { ImportReadings } from "./import-button";
import { isBrought, type KeptReadings } from "./readings";

export interface ReadingPart {
  /** Key in the reading as it is recorded: "micron". */
  readonly key: string;
  readonly label: string;
  readonly quantity: QuantityName;
  readonly usual?: readonly [number, number];
  readonly optional?: boolean;
}

/** A reading whose parts are being typed. */
interface Taking {
  readonly atS: number;
  readonly part: number;
  readonly values: Readonly<Record<string, number>>;
}

interface AnyReading {
  readonly s: number;
  readonly [part: string]: number;
}

/**
 * Readings by hand against a running clock: one press starts it, the pad comes up when a reading is due. The moment of a
 * reading is when the pad was opened, by the wall clock, so that a page asleep loses no time.
 */
export function TimedReadings(props: {
  vacuum: boolean;
  parts: readonly [ReadingPart, ...ReadingPart[]];
  /** When the next reading is due, in seconds after the start. */
  nextDueS: (lastS: number) => number;
  /** The clock's goal: the time asked for. */
  goalS?: number | undefined;
  children?: ReactNode;
}) {
  const { draft, set, open } = useForm();
  const record = (draft.record ?? {}) as KeptReadings<AnyReading>;
  const readings = record.kept === "trace" ? [] : (record.readings ?? []);
  const startMs = typeof draft._startMs === "number" ? draft._startMs : undefined;
  const running = startMs !== undefined;
  const now = useNow(1000);
  // In the draft, not in the component: the screen is laid out anew when the clock starts, and a kill costs nothing.
  const taking = (draft._taking ?? null) as Taking | null;
  const setTaking = (next: Taking | null) => set("_taking", next);
  const answered = useRef(false);
  const units = useUnits();
  useWakeLock(running);
  const byRadio = draft._live !== undefined && draft._live !== null;
  useLiveRecording();
  const last = readings.at(-1);
  const dueS = props.nextDueS(last?.s ?? -1);
  const sinceS = running && now !== undefined ? (now - startMs) / 1000 : undefined;
  const isDue = !byRadio && sinceS !== undefined && sinceS >= dueS;
  useEffect(() => {
    if (isDue) navigator.vibrate?.(200);
  }, [isDue]);

  function startAnew() {
    set("record", { kept: "inline", readings: [] });
    set("source", "typed");
    set("_live", null);
    set("_startMs", null);
    setTaking(null);
  }
  function take() {
    if (startMs === undefined) return;
    setTaking({ atS: Math.round((Date.now() - startMs) / 1000), part: 0, values: {} });
  }
  function took(value: number | null) {
    if (!taking) return;
    answered.current = true; // the sheet closes after this; that is no giving up
    const part = props.parts[taking.part];
    const values = value === null || !part ? taking.values : { ...taking.values, [part.key]: value };
    if (taking.part + 1 < props.parts.length) {
      setTaking({ ...taking, part: taking.part + 1, values });
      return;
    }
    set("record", { kept: "inline", readings: [...readings, { s: taking.atS, ...values }] });
    setTaking(null);
  }
  const part = taking && props.parts[taking.part];
  const problem = open.get("record") ?? open.get("record.readings") ?? open.get("record.kept");

  if (byRadio)
    return (
      <div className="grid gap-3">
        <div className="flex flex-wrap items-center gap-x-6 gap-y-2">
          {sinceS !== undefined && <Clock sinceS={sinceS} goalS={props.goalS} />}
          <WritingMark />
        </div>
        <LinkedGauges />
        {props.children}
        <div className="flex flex-wrap gap-3">
          <LinkGauge />
          <Button onClick={startAnew}>{readingsWords.leaveThisRecord}</Button>
        </div>
      </div>
    );
  if (record.kept === "trace" || isBrought(draft))
    return (
      <div className="grid gap-3">
        {props.children}
        <div className="flex flex-wrap items-center gap-4">
          <p>{readingsWords.fromAFile(record.kept === "trace" ? (record.trace?.sampleCount ?? 0) : readings.length)}</p>
          <Button onClick={startAnew}>{readingsWords.takeOtherReadings}</Button>
        </div>
      </div>
    );
  return (
    <div className="grid gap-3" data-open-field={problem ? "" : undefined}>
      {props.vacuum && !running && readings.length === 0 && <RadioGauges />}
      {!running && readings.length === 0 ? (
        <div className="flex flex-wrap gap-3">
          <ImportReadings vacuum={props.vacuum} />
        </div>
      ) : (
        <>
          <div className="flex flex-wrap items-center gap-x-6 gap-y-2">
            {sinceS !== undefined && <Clock sinceS={sinceS} goalS={props.goalS} />}
            <span role="status">{isDue && <StateMark state="needs-you" word={readingsWords.readTheGaugeNow} />}</span>
            {sinceS !== undefined && !isDue && (
              <StateMark state="waiting" word={readingsWords.nextReadingIn(stopwatchWords(dueS - sinceS + 1))} />
            )}
          </div>
          <div className="flex flex-wrap gap-3">
            <Button kind={isDue ? "action" : "quiet"} className="min-h-20 grow" onClick={take}>
              {readingsWords.enterWhatItShows}
            </Button>
            <ImportReadings vacuum={props.vacuum} />
            {running && readings.length < 2 && (
              <Button kind="plain" onClick={startAnew}>
                {readingsWords.startedTooEarly}
              </Button>
            )}
          </div>
        </>
      )}
      {problem && <p className="font-medium text-refused">{problem}</p>}
      {props.children}
      {readings.length > 0 && (
        <details>
          <summary className="flex min-h-(--control) cursor-pointer items-center text-action">
            {readingsWords.soFar(readings.length)}
          </summary>
          <ol className="grid">
            {readings.map((reading, index) => (
              <li
                key={reading.s}
                className="flex items-center gap-4 border-b border-hairline py-1 font-mono tabular-nums"
              >
                <span className="w-20">{stopwatchWords(reading.s)}</span>
                {props.parts.map(({ key, quantity }) =>
                  reading[key] === undefined ? null : <span key={key}>{units.words(quantity, reading[key])}</span>,
                )}
                {index === readings.length - 1 && (
                  <Button
                    kind="plain"
                    className="ml-auto"
                    onClick={() => set("record", { kept: "inline", readings: readings.slice(0, -1) })}
                  >
                    {readingsWords.mistypedTakeItBack}
                  </Button>
                )}
              </li>
            ))}
          </ol>
        </details>
      )}
      {part && (
        <PadSheet
          key={`${taking.atS} ${part.key}`}
          label={readingsWords.partAt(part.label, stopwatchWords(taking.atS))}
          quantity={part.quantity}
          {...(part.usual && { usual: part.usual })}
          mayBeUnknown={part.optional ?? false}
          confirmWord={readingsWords.keep}
          open
          onOpenChange={(next) => {
            if (!next && !answered.current) setTaking(null);
            answered.current = false;
          }}
          onChange={took}
        />
      )}
    </div>
  );
}

/** The step's large button while there are no readings: it starts the clock, and a linked gauge writes from here on. */
export function StartReadings(props: { vacuum: boolean; word: string; onStart?: (at: Date) => void }) {
  const { draft, set } = useForm();
  const gauges = useLinkedGauges();
  function start() {
    const at = new Date();
    set("_startMs", at.getTime());
    props.onStart?.(at);
    window.scrollTo(0, 0);
    const [gauge] = gauges;
    if (props.vacuum && gauge) return startLive(draft, set, gauge);
    set("source", "typed");
    set("record", { kept: "inline", readings: [] });
    set("_taking", { atS: 0, part: 0, values: {} } satisfies Taking);
  }
  return (
    <Button kind="action" onClick={start}>
      {props.word}
    </Button>
  );
}

function Clock({ sinceS, goalS }: { sinceS: number; goalS: number | undefined }) {
  return (
    <p className="font-mono text-title tabular-nums">
      {stopwatchWords(sinceS)}
      {goalS !== undefined && (
        <span className="font-sans text-body text-ink-soft"> {readingsWords.ofGoal(stopwatchWords(goalS))}</span>
      )}
    </p>
  );
}

/** A reading every half minute at first, then every minute; longer holds more seldom, so that hands stay free. */
export function usualInterval(goalS: number): (lastS: number) => number {
  const stepS = Math.max(60, Math.ceil(goalS / 20 / 60) * 60);
  return (lastS) =>
    lastS < 0 ? 0 : lastS < 120 ? (Math.floor(lastS / 30) + 1) * 30 : (Math.floor(lastS / stepS) + 1) * stepS;
}
