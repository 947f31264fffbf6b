"use client";

import { Facts, Section } from "@/components/ui/section";
import type { EvidenceOf } from "@/lib/hvac/procedure";
import { judges } from "@/lib/hvac/procedure";
import { fieldsWords } from "@/lib/words/en/fields";
import { performanceWords } from "@/lib/words/en/performance";
import { type Draft, valueAt } from "../form/draft";
import { OneOf, Words } from "../form/fields";
import { useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { EvidenceForm, type StepFormProps } from "../job/evidence-form";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";
import { lastBarometer } from "./last-barometer";

const unread = {
  indoorDryBulbC: null,
  indoorWetBulbC: null,
  returnAirC: null,
  supplyAirC: null,
  suction: null,
  liquid: null,
  targetSuperheatK: null,
  targetSubcoolingK: null,
  compressorCurrentA: null,
  ratedCurrentA: null,
  photos: [],
  note: null,
};

export function PerformanceForm(props: StepFormProps) {
  const { job } = useJobHere();
  const blank = (): Draft => ({ ...unread, ...lastBarometer(job) });
  return (
    <EvidenceForm {...props} step="performance" blank={blank} verb={performanceWords.recordThePerformanceCheck}>
      <Fields />
    </EvidenceForm>
  );
}

function Fields() {
  return (
    <>
      <Section title={performanceWords.running}>
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <PadField
            at="ranMinutes"
            label={performanceWords.itHasRun}
            hint={performanceWords.atLeast15Minutes}
            quantity="minutes"
            usual={[15, 120]}
          />
          <PadField
            at="outdoorDryBulbC"
            label={performanceWords.airOutdoors}
            quantity="temperature"
            usual={[-20, 45]}
          />
          <PadField at="atmosphericKPa" label={fieldsWords.barometerHere} quantity="barometer" usual={[75, 105]} />
        </div>
        <OneOf
          at="metering"
          label={performanceWords.meteringDevice}
          options={[
            {
              value: "expansion-valve",
              label: performanceWords.expansionValve,
              detail: performanceWords.lookAtSubcooling,
            },
            { value: "fixed-orifice", label: performanceWords.fixedOrifice, detail: performanceWords.lookAtSuperheat },
            { value: "capillary", label: performanceWords.capillaryTube },
            { value: "other", label: performanceWords.another },
          ]}
        />
      </Section>
      <LinePair at="suction" target="targetSuperheatK" />
      <LinePair at="liquid" target="targetSubcoolingK" />
      <Computed />
      <Section title={performanceWords.airAndCurrent}>
        <div className="grid items-end gap-3 pair:grid-cols-2">
          <PadField
            at="returnAirC"
            label={performanceWords.returnAir}
            quantity="temperature"
            mayBeUnknown
            usual={[10, 35]}
          />
          <PadField
            at="supplyAirC"
            label={performanceWords.supplyAir}
            quantity="temperature"
            mayBeUnknown
            usual={[0, 50]}
          />
          <PadField
            at="indoorDryBulbC"
            label={performanceWords.indoorDryBulb}
            quantity="temperature"
            mayBeUnknown
            usual={[10, 35]}
          />
          <PadField
            at="indoorWetBulbC"
            label={performanceWords.indoorWetBulb}
            quantity="temperature"
            mayBeUnknown
            usual={[5, 30]}
          />
          <PadField
            at="compressorCurrentA"
            label={performanceWords.compressorCurrent}
            quantity="ampere"
            mayBeUnknown
            usual={[1, 60]}
          />
          <PadField
            at="ratedCurrentA"
            label={performanceWords.ratedLoadCurrent}
            quantity="ampere"
            mayBeUnknown
            usual={[1, 60]}
          />
        </div>
      </Section>
      <Words at="note" label={fieldsWords.note} optional long />
    </>
  );
}

function LinePair(props: { at: "suction" | "liquid"; target: string }) {
  const { draft, set } = useForm();
  const { at } = props;
  if (draft[at] === null)
    return (
      <button
        type="button"
        className="min-h-(--control) rounded-control border border-edge bg-raised px-4 text-left font-semibold"
        onClick={() => set(at, {})}
      >
        {performanceWords[at].read}
      </button>
    );
  return (
    <Section
      title={performanceWords[at].line}
      actions={
        <button
          type="button"
          className="min-h-(--control) px-3 font-semibold text-action"
          onClick={() => set(at, null)}
        >
          {performanceWords.notRead}
          <span className="sr-only">: {performanceWords[at].line}</span>
        </button>
      }
    >
      <div className="grid items-end gap-3 pair:grid-cols-3">
        <PadField
          at={`${at}.kPaGauge`}
          label={performanceWords.pressure}
          quantity="gaugePressure"
          usual={at === "suction" ? [100, 1500] : [500, 4500]}
        />
        <PadField
          at={`${at}.lineTemperatureC`}
          label={performanceWords.pipeTemperature}
          quantity="temperature"
          usual={[-40, 70]}
        />
        <PadField
          at={props.target}
          label={performanceWords[at].target}
          quantity="temperatureDifference"
          usual={[2, 20]}
          mayBeUnknown
        />
      </div>
    </Section>
  );
}

/** Superheat, subcooling and split, computed from the saturation of the refrigerant at this barometer. */
function Computed() {
  const { job } = useJobHere();
  const { draft } = useForm();
  const units = useUnits();
  const hasPair = (at: string) =>
    typeof valueAt(draft, `${at}.kPaGauge`) === "number" &&
    typeof valueAt(draft, `${at}.lineTemperatureC`) === "number";
  if (typeof draft.atmosphericKPa !== "number" || typeof draft.outdoorDryBulbC !== "number") return null;
  const evidence = {
    ...unread,
    ...draft,
    suction: hasPair("suction") ? draft.suction : null,
    liquid: hasPair("liquid") ? draft.liquid : null,
    ranMinutes: typeof draft.ranMinutes === "number" ? draft.ranMinutes : 0,
  } as unknown as EvidenceOf<"performance">; // what the judge reads of it was checked above
  const { figures } = judges.performance({ evidence, circuit: job.state.circuit });
  const split =
    typeof draft.returnAirC === "number" && typeof draft.supplyAirC === "number"
      ? draft.returnAirC - draft.supplyAirC
      : null;
  const difference = (kelvin: number | undefined) =>
    kelvin === undefined ? performanceWords.notComputed : units.both("temperatureDifference", kelvin);
  const items = [
    ...(figures.superheatK !== undefined
      ? [
          {
            term: performanceWords.superheat,
            value: withTarget(figures.superheatK, figures.superheatTargetK),
          },
        ]
      : []),
    ...(figures.subcoolingK !== undefined
      ? [
          {
            term: performanceWords.subcooling,
            value: withTarget(figures.subcoolingK, figures.subcoolingTargetK),
          },
        ]
      : []),
    ...(split === null ? [] : [{ term: performanceWords.airReturnLessSupply, value: difference(split) }]),
  ];
  return items.length === 0 ? null : <Facts items={items} />;

  function withTarget(kelvin: number, targetK: number | undefined): string {
    if (targetK === undefined) return difference(kelvin);
    return performanceWords.withTarget(difference(kelvin), units.words("temperatureDifference", targetK));
  }
}
