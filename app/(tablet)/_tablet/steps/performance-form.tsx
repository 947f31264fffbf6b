"use client";

import { Facts, Section } from "@/components/ui/section";
import type { EvidenceOf } from "@/lib/hvac/procedure";
import { judges } from "@/lib/hvac/procedure";
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
    <EvidenceForm {...props} step="performance" blank={blank} verb="Record the performance check">
      <Fields />
    </EvidenceForm>
  );
}

function Fields() {
  return (
    <>
      <Section title="Running">
        <div className="grid gap-3 wide:grid-cols-2">
          <PadField
            at="ranMinutes"
            label="It has run for"
            hint="At least 15 minutes before it is read."
            quantity="minutes"
            usual={[15, 120]}
          />
          <PadField at="outdoorDryBulbC" label="Air outdoors" quantity="temperature" usual={[-20, 45]} />
          <PadField at="atmosphericKPa" label="Barometer here" quantity="barometer" usual={[75, 105]} />
        </div>
        <OneOf
          at="metering"
          label="Metering device"
          options={[
            { value: "expansion-valve", label: "Expansion valve", detail: "look at subcooling" },
            { value: "fixed-orifice", label: "Fixed orifice", detail: "look at superheat" },
            { value: "capillary", label: "Capillary tube" },
            { value: "other", label: "Another" },
          ]}
        />
      </Section>
      <LinePair at="suction" title="Suction" name="Superheat" target="targetSuperheatK" />
      <LinePair at="liquid" title="Liquid" name="Subcooling" target="targetSubcoolingK" />
      <Computed />
      <Section title="Air and current">
        <div className="grid gap-3 wide:grid-cols-2">
          <PadField at="returnAirC" label="Return air" quantity="temperature" mayBeUnknown usual={[10, 35]} />
          <PadField at="supplyAirC" label="Supply air" quantity="temperature" mayBeUnknown usual={[0, 50]} />
          <PadField at="indoorDryBulbC" label="Indoor dry bulb" quantity="temperature" mayBeUnknown usual={[10, 35]} />
          <PadField at="indoorWetBulbC" label="Indoor wet bulb" quantity="temperature" mayBeUnknown usual={[5, 30]} />
          <PadField at="compressorCurrentA" label="Compressor current" quantity="ampere" mayBeUnknown usual={[1, 60]} />
          <PadField
            at="ratedCurrentA"
            label="Rated load current, from the plate"
            quantity="ampere"
            mayBeUnknown
            usual={[1, 60]}
          />
        </div>
      </Section>
      <Words at="note" label="Note" optional long />
    </>
  );
}

function LinePair(props: { at: "suction" | "liquid"; title: string; name: string; target: string }) {
  const { draft, set } = useForm();
  const { at } = props;
  if (draft[at] === null)
    return (
      <button
        type="button"
        className="min-h-(--control) rounded-control border border-edge bg-raised px-4 text-left font-semibold"
        onClick={() => set(at, {})}
      >
        Read the {props.title.toLowerCase()} line
      </button>
    );
  return (
    <Section
      title={`${props.title} line`}
      actions={
        <button type="button" className="min-h-11 px-3 font-semibold text-action" onClick={() => set(at, null)}>
          Not read
        </button>
      }
    >
      <div className="grid gap-3 wide:grid-cols-3">
        <PadField
          at={`${at}.kPaGauge`}
          label="Pressure"
          quantity="gaugePressure"
          usual={at === "suction" ? [100, 1500] : [500, 4500]}
        />
        <PadField at={`${at}.lineTemperatureC`} label="Pipe temperature" quantity="temperature" usual={[-40, 70]} />
        <PadField
          at={props.target}
          label={`Target ${props.name.toLowerCase()}`}
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
    kelvin === undefined ? "not computed" : units.both("temperatureDifference", kelvin);
  const items = [
    ...(figures.superheatK !== undefined
      ? [{ term: "Superheat", value: `${difference(figures.superheatK)}${targetWords(figures.superheatTargetK)}` }]
      : []),
    ...(figures.subcoolingK !== undefined
      ? [{ term: "Subcooling", value: `${difference(figures.subcoolingK)}${targetWords(figures.subcoolingTargetK)}` }]
      : []),
    ...(split === null ? [] : [{ term: "Air, return less supply", value: difference(split) }]),
  ];
  return items.length === 0 ? null : <Facts items={items} />;

  function targetWords(kelvin: number | undefined): string {
    return kelvin === undefined ? "" : `, target ${units.words("temperatureDifference", kelvin)}`;
  }
}
