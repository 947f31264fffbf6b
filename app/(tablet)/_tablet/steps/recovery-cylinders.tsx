"use client";

import { Button } from "@/components/ui/button";
import { Section } from "@/components/ui/section";
import { SelectField } from "@/components/ui/select-field";
import { StateMark } from "@/components/ui/state-mark";
import { TextInput } from "@/components/ui/text-input";
import { findRefrigerant, judgeCylinderFill, requalificationDueOn } from "@/lib/hvac";
import { cylindersWords } from "@/lib/words/en/cylinders";
import { recoverWords } from "@/lib/words/en/recover";
import { YesNo } from "../form/fields";
import { useField } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { useJobHere } from "../job/job-context";
import type { JobCylinder } from "../job/job-heading";
import { siteDay } from "../today/site-clock";
import { type Units, useUnits } from "../units/unit-choices";

interface Weighing {
  cylinderId: string | null;
  label: string;
  refrigerant: string | null;
  grossBeforeKg?: number | null;
  grossAfterKg?: number | null;
  stamp: {
    waterCapacityKg?: number;
    tareKg?: number;
    requalifiedMonth?: string;
    disposable?: boolean;
    damaged?: boolean;
    markedForFlammables?: boolean;
  } | null;
}

/** Each cylinder on the scale, with what may still go in before it is too full. */
export function RecoveryCylinders() {
  const { job } = useJobHere();
  const units = useUnits();
  const { value, set, problem } = useField<Weighing[]>("cylinders");
  const weighings = value ?? [];
  const unused = job.heading.cylinders.filter(({ id }) => !weighings.some((each) => each.cylinderId === id));
  const add = (weighing: Weighing) => set([...weighings, weighing]);
  return (
    <Section title={recoverWords.cylinders} lead={recoverWords.cylindersLead}>
      {weighings.map((weighing, index) => (
        <fieldset
          key={weighing.cylinderId ?? `other ${index}`}
          aria-label={weighing.label || cylindersWords.anotherCylinder}
          className="grid min-w-0 gap-3 border-l-3 border-edge pl-4"
        >
          <div className="flex items-center justify-between gap-3">
            <p className="font-semibold">{weighing.cylinderId ? weighing.label : cylindersWords.anotherCylinder}</p>
            <Button kind="plain" onClick={() => set(weighings.filter((_, at) => at !== index))}>
              {cylindersWords.takeOffTheList}
              <span className="sr-only">: {weighing.label || cylindersWords.anotherCylinder}</span>
            </Button>
          </div>
          {weighing.cylinderId === null && <OtherCylinder at={`cylinders.${index}`} />}
          <div className="grid items-end gap-3 pair:grid-cols-2">
            <PadField at={`cylinders.${index}.grossBeforeKg`} label={cylindersWords.grossBefore} quantity="mass" />
            <PadField at={`cylinders.${index}.grossAfterKg`} label={cylindersWords.grossNowOrAfter} quantity="mass" />
          </div>
          <FillGuard weighing={weighing} />
        </fieldset>
      ))}
      {problem && <p className="font-medium text-refused">{problem}</p>}
      <SelectField
        label={cylindersWords.putACylinder}
        emptyChoice={cylindersWords.chooseACylinder}
        value=""
        choices={[
          ...unused.map((cylinder) => ({ value: cylinder.id, label: cylinderWords(cylinder, units) })),
          { value: "other", label: cylindersWords.oneThat },
        ]}
        onChange={(event) => {
          const chosen = unused.find(({ id }) => id === event.target.value);
          if (chosen) add(weighingOf(chosen));
          else if (event.target.value === "other")
            add({ cylinderId: null, label: "", refrigerant: null, stamp: { disposable: false } });
        }}
      />
    </Section>
  );
}

function OtherCylinder({ at }: { at: string }) {
  const label = useField<string>(`${at}.label`);
  const month = useField<string>(`${at}.stamp.requalifiedMonth`);
  return (
    <>
      <TextInput
        label={cylindersWords.numberOnIt}
        error={label.problem}
        value={label.value ?? ""}
        onChange={(event) => label.set(event.target.value)}
      />
      <div className="grid items-end gap-3 pair:grid-cols-2">
        <PadField at={`${at}.stamp.waterCapacityKg`} label={recoverWords.waterCapacityStampedWc} quantity="mass" />
        <PadField at={`${at}.stamp.tareKg`} label={recoverWords.tareStampedTw} quantity="mass" />
      </div>
      <TextInput
        label={recoverWords.lastRequalifiedYear}
        hint={recoverWords.asIn202304}
        placeholder="2023-04"
        error={month.problem}
        value={month.value ?? ""}
        onChange={(event) => month.set(event.target.value)}
      />
      <YesNo at={`${at}.stamp.damaged`} label={recoverWords.dentedCorrodedOrUnmarked} />
      <YesNo at={`${at}.stamp.markedForFlammables`} label={recoverWords.markedForFlammables} />
      <YesNo at={`${at}.stamp.disposable`} label={recoverWords.disposable} />
    </>
  );
}

/** What the engine says about the fill as weighed now. */
function FillGuard({ weighing }: { weighing: Weighing }) {
  const { job } = useJobHere();
  const units = useUnits();
  const fact = job.state.circuit?.refrigerant;
  const refrigerant = fact?.state === "identified" ? findRefrigerant(fact.refrigerant) : undefined;
  const stamp = completeStamp(weighing.stamp);
  const grossKg = weighing.grossAfterKg ?? weighing.grossBeforeKg;
  if (!refrigerant || !stamp || typeof grossKg !== "number")
    return <StateMark state="cannot-say" word={recoverWords.noFillLimitYet} className="text-small" />;
  const judgement = judgeCylinderFill({
    tense: weighing.grossAfterKg === undefined || weighing.grossAfterKg === null ? "intended" : "happened",
    refrigerant,
    cylinder: { ...stamp, contents: weighing.refrigerant },
    grossKg,
    date: siteDay(Date.now(), job.heading.job.site.timeZone),
  });
  const { limit, roomKg } = judgement;
  return (
    <div className="grid gap-1">
      {limit && roomKg !== null && (
        <p>
          {recoverWords.stopAt(
            <strong key="gross" className="font-mono">
              {units.both("mass", limit.grossKg)}
            </strong>,
          )}
          {roomKg >= 0
            ? recoverWords.moreMayGoIn(units.words("mass", roomKg))
            : recoverWords.tooMuchIsIn(units.words("mass", -roomKg))}
          . <span className="text-small text-ink-soft">{limit.source.source}</span>
        </p>
      )}
      {judgement.verdict === "accepted" ? (
        <StateMark state="proven" word={recoverWords.withinTheFillLimit} />
      ) : (
        judgement.reasons.map((reason) => (
          <p key={reason.code}>
            <StateMark state="refused" word={reason.text} />
          </p>
        ))
      )}
    </div>
  );
}

function completeStamp(stamp: Weighing["stamp"]) {
  if (!stamp) return null;
  const { waterCapacityKg, tareKg, requalifiedMonth, disposable, damaged, markedForFlammables } = stamp;
  if (waterCapacityKg === undefined || tareKg === undefined || !/^\d{4}-\d{2}$/.test(requalifiedMonth ?? ""))
    return null;
  return {
    waterCapacityKg,
    tareKg,
    requalificationDueOn: requalificationDueOn(requalifiedMonth as string),
    disposable: disposable ?? false,
    damaged: damaged ?? false,
    markedForFlammables: markedForFlammables ?? false,
  };
}

const REQUALIFICATION_YEARS = 5;

function weighingOf(cylinder: JobCylinder): Weighing {
  const dueOn = cylinder.requalifyBy?.slice(0, 7);
  return {
    cylinderId: cylinder.id,
    label: cylinder.label,
    refrigerant: cylinder.refrigerant,
    stamp: dueOn
      ? {
          waterCapacityKg: cylinder.waterCapacityKg,
          tareKg: cylinder.tareKg,
          // The register holds when it is due; the stamp says when it was done, five years before.
          requalifiedMonth: `${Number(dueOn.slice(0, 4)) - REQUALIFICATION_YEARS}${dueOn.slice(4)}`,
          disposable: !cylinder.refillable,
          damaged: false,
          markedForFlammables: cylinder.forFlammables,
        }
      : null,
  };
}

function cylinderWords(cylinder: JobCylinder, units: Units): string {
  return recoverWords.inIt(
    cylinder.label,
    cylinder.refrigerant ?? recoverWords.empty,
    units.words("mass", cylinder.contentsKg),
  );
}
