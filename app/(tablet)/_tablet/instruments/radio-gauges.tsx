"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { StateMark } from "@/components/ui/state-mark";
import { paToMicron } from "@/lib/hvac";
import type { RadioGauge } from "@/lib/instruments/radio-gauge";
import { instrumentsWords } from "@/lib/words/en/instruments";
import { useNow } from "../device/device-context";
import { stopwatchWords } from "../today/time-words";
import { useUnits } from "../units/unit-choices";
import { hasRadio, letGo, linkGauge, useLinkedGauges, useStanding } from "./linked-gauges";

const MOST = 2;

/** The gauges linked by Bluetooth and the button that links one. Nothing where the browser has no radio. */
export function RadioGauges() {
  return (
    <>
      <LinkedGauges />
      <LinkGauge />
    </>
  );
}

/** What the linked gauges show, how the link is, and how two of them differ. */
export function LinkedGauges() {
  const gauges = useLinkedGauges();
  const [own, other] = gauges;
  if (!own) return null;
  return (
    <section aria-label={instrumentsWords.gaugesByBluetooth} className="grid gap-2">
      {gauges.map((gauge, index) => (
        <Linked key={`${gauge.standing.name} ${index}`} gauge={gauge} second={index > 0} />
      ))}
      {other && <Difference own={own} other={other} />}
    </section>
  );
}

/** Links a first gauge, or a second to compare. */
export function LinkGauge() {
  const gauges = useLinkedGauges();
  const [linking, setLinking] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  if (!hasRadio()) return null;
  async function link() {
    setLinking(true);
    setTrouble(await linkGauge());
    setLinking(false);
  }
  return (
    <div className="grid gap-2">
      {trouble && (
        <p role="alert" className="font-medium text-refused">
          {trouble}
        </p>
      )}
      {gauges.length < MOST && (
        <Button
          className="justify-self-start"
          pending={linking}
          pendingWord={instrumentsWords.lookingForIt}
          onClick={() => void link()}
        >
          {gauges.length === 0 ? instrumentsWords.linkAGauge : instrumentsWords.linkASecondGauge}
        </Button>
      )}
    </div>
  );
}

/** Whether something is being written now: not while no linked gauge is heard. */
export function WritingMark() {
  const [gauge] = useLinkedGauges();
  return gauge ? <Writing gauge={gauge} /> : <StateMark state="needs-you" word={instrumentsWords.nothingIsWritten} />;
}

function Writing({ gauge }: { gauge: RadioGauge }) {
  return useStanding(gauge).link === "linked" ? (
    <StateMark state="working" word={instrumentsWords.gaugeWrites} />
  ) : (
    <StateMark state="needs-you" word={instrumentsWords.nothingIsWritten} />
  );
}

function Linked({ gauge, second }: { gauge: RadioGauge; second: boolean }) {
  const { name, link, lostAtMs, batteryPercent, last } = useStanding(gauge);
  const units = useUnits();
  const now = useNow(1000);
  const silentS = last && now !== undefined ? Math.max(0, (now - last.atMs) / 1000) : 0;
  return (
    <div className="flex flex-wrap items-center gap-x-4 gap-y-1 border-b border-hairline py-1">
      <span role="status" className="sr-only">
        {link === "lost" && instrumentsWords.linkLost(name, null)}
      </span>
      <p className="grow">
        {link === "linked" && silentS < SILENT_S ? (
          <StateMark state="working" word={instrumentsWords.linked(name)} />
        ) : link === "linked" ? (
          <StateMark state="needs-you" word={instrumentsWords.saysNothingSince(name, stopwatchWords(silentS))} />
        ) : (
          <StateMark
            state="needs-you"
            word={instrumentsWords.linkLost(
              name,
              lostAtMs && now !== undefined ? stopwatchWords(Math.max(0, now - lostAtMs) / 1000) : null,
            )}
          />
        )}
        {batteryPercent !== null && (
          <span className={batteryPercent <= LOW_PERCENT ? "font-semibold text-needs-you" : "text-ink-soft"}>
            {" "}
            {instrumentsWords.battery(batteryPercent)}
          </span>
        )}
        {second && <span className="text-ink-soft"> {instrumentsWords.toCompare}</span>}
      </p>
      {last && <span className="font-mono tabular-nums">{units.both("vacuum", paToMicron(last.pressureAbsPa))}</span>}
      <Button kind="plain" className="-mr-4" onClick={() => letGo(gauge)}>
        {instrumentsWords.letGoOf(name)}
      </Button>
      {link === "lost" && <p className="basis-full text-small text-ink-soft">{instrumentsWords.gapStaysOpen}</p>}
    </div>
  );
}
const SILENT_S = 10;
const LOW_PERCENT = 15;

/** Two gauges on one circuit: at rest they agree within their accuracy. [common practice] */
function Difference({ own, other }: { own: RadioGauge; other: RadioGauge }) {
  const units = useUnits();
  const [first, second] = [useStanding(own).last, useStanding(other).last];
  if (!first || !second || Math.abs(first.atMs - second.atMs) > TOGETHER_MS) return null;
  const [a, b] = [first.pressureAbsPa, second.pressureAbsPa];
  const apart = Math.abs(a - b);
  const share = apart / Math.max(1e-9, Math.max(a, b));
  return (
    <p>
      {instrumentsWords.apart(units.both("vacuum", paToMicron(apart)), Math.round(share * 100))}{" "}
      {share > FAR_APART ? instrumentsWords.farApart : instrumentsWords.theyAgree}
    </p>
  );
}
const TOGETHER_MS = 5_000;
/** Electronic vacuum gauges are commonly stated at 10 to 15 % of the reading; two of them at the far ends. [common practice] */
const FAR_APART = 0.25;
