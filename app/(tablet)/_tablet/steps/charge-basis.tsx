"use client";

import { Section } from "@/components/ui/section";
import { planCharge } from "@/lib/hvac";
import { chargeWords } from "@/lib/words/en/charge";
import { fieldsWords } from "@/lib/words/en/fields";
import { valueAt } from "../form/draft";
import { OneOf, YesNo } from "../form/fields";
import { useField, useForm } from "../form/form-context";
import { PadField } from "../form/pad-field";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";

/** What the charge is weighed by, and the sum. */
export function ChargeBasis() {
  const { job } = useJobHere();
  const { draft, set } = useForm();
  const by = valueAt(draft, "basis.by");
  const { circuit } = job.state;
  const fullKg = circuit?.fullChargeKg;
  return (
    <Section title={chargeWords.howMuch}>
      <OneOf
        at="basis.by"
        label={chargeWords.chargedBy}
        columns={3}
        options={[
          { value: "nameplate", label: chargeWords.theNameplate },
          { value: "factory-and-line-set", label: chargeWords.factoryChargeAndLine },
          { value: "replace-removed", label: chargeWords.whatWasTaken },
        ]}
        onChoose={(chosen) =>
          set(
            "basis",
            chosen === "nameplate"
              ? { by: chosen, ...(fullKg && { chargeKg: fullKg }) }
              : chosen === "replace-removed"
                ? { by: chosen, removedKg: Math.max(0, job.state.mass.recoveredKg) }
                : {
                    by: chosen,
                    ...(fullKg && { factoryChargeKg: fullKg }),
                    ...(circuit?.lineSet && { lineLengthM: circuit.lineSet.lengthM }),
                    adders: [],
                  },
          )
        }
      />
      {by === "nameplate" && <PadField at="basis.chargeKg" label={chargeWords.chargeOnTheNameplate} quantity="mass" />}
      {by === "replace-removed" && (
        <PadField
          at="basis.removedKg"
          label={chargeWords.takenOutOrLost}
          hint={chargeWords.asWeighedAtRecovery}
          quantity="mass"
        />
      )}
      {by === "factory-and-line-set" && (
        <>
          <div className="grid items-end gap-3 pair:grid-cols-2">
            <PadField at="basis.factoryChargeKg" label={chargeWords.factoryCharge} quantity="mass" />
            <PadField at="basis.lineLengthM" label={chargeWords.lineLength} quantity="lineLength" usual={[1, 60]} />
            <PadField
              at="basis.lineRateKgPerM"
              label={chargeWords.forEachLength}
              hint={chargeWords.fromTheMakersTable}
              quantity="massPerLength"
            />
            <PadField
              at="basis.factoryLineAllowanceKg"
              label={chargeWords.theFactoryAllowed}
              hint={chargeWords.asAMassAllowed}
              quantity="mass"
            />
          </div>
          <YesNo at="basis.factoryChargeInUnit" label={chargeWords.theFactoryChargeIsInTheUnit} />
          <DrierAdder />
        </>
      )}
      <Sum />
    </Section>
  );
}

function DrierAdder() {
  const { value, set } = useField<{ what: string; addKg: number }[]>("basis.adders");
  const adders = value ?? [];
  return (
    <div className="grid gap-2">
      {adders.map((adder, index) => (
        <div key={adder.what} className="grid grid-cols-[1fr_auto] items-end gap-3">
          <PadField at={`basis.adders.${index}.addKg`} label={adder.what} quantity="mass" />
          <button
            type="button"
            className="min-h-(--control) px-4 font-semibold text-action"
            onClick={() => set(adders.filter((_, at) => at !== index))}
          >
            {fieldsWords.takeOff}
            <span className="sr-only">: {adder.what}</span>
          </button>
        </div>
      ))}
      {!adders.some(({ what }) => what === chargeWords.fieldDrier) && (
        <button
          type="button"
          className="min-h-(--control) justify-self-start font-semibold text-action underline-offset-4 hover:underline"
          onClick={() => set([...adders, { what: chargeWords.fieldDrier, addKg: 0 }])}
        >
          {chargeWords.addForAField}
        </button>
      )}
    </div>
  );
}

/** The arithmetic written out, so that it can be checked with a pencil. */
function Sum() {
  const { job } = useJobHere();
  const { draft } = useForm();
  const units = useUnits();
  const basis = (draft.basis ?? {}) as Record<string, unknown>;
  const mass = (kg: number) => units.both("mass", kg);
  const weighed = typeof draft.weighedInKg === "number" ? draft.weighedInKg : null;
  const before = chargedBefore(job.entries);
  let lines: (readonly [string, string])[] | null = null;
  let toWeighKg: number | null = null;
  if (basis.by === "nameplate" && typeof basis.chargeKg === "number") {
    toWeighKg = basis.chargeKg;
    lines = [[chargeWords.nameplate, mass(basis.chargeKg)]];
  } else if (basis.by === "replace-removed" && typeof basis.removedKg === "number") {
    toWeighKg = basis.removedKg;
    lines = [[chargeWords.takenOut, mass(basis.removedKg)]];
  } else if (basis.by === "factory-and-line-set") {
    const { factoryChargeKg, lineLengthM, lineRateKgPerM, factoryLineAllowanceKg, factoryChargeInUnit } = basis;
    const numbers = [factoryChargeKg, lineLengthM, lineRateKgPerM, factoryLineAllowanceKg];
    if (!numbers.every((value): value is number => typeof value === "number")) return null;
    const [factory, length, rate, allowance] = numbers as [number, number, number, number];
    const adders = (basis.adders ?? []) as { what: string; addKg: number }[];
    const plan = planCharge(factory, {
      rateKgPerM: rate,
      lengthM: length,
      included: { massKg: allowance },
      addersKg: adders.map(({ addKg }) => addKg),
    });
    if (!plan.ok) return <p className="font-medium text-refused">{chargeWords.theseNumbersMake}</p>;
    toWeighKg = factoryChargeInUnit === true ? plan.value.adjustmentKg : plan.value.totalKg;
    lines = [
      ...(factoryChargeInUnit === true ? [] : ([[chargeWords.factoryCharge, mass(factory)]] as const)),
      [
        chargeWords.line(units.words("lineLength", length), units.words("massPerLength", rate)),
        `+ ${mass(rate * length)}`,
      ],
      [chargeWords.allowedForTheLine, `− ${mass(allowance)}`],
      ...adders.map(({ what, addKg }) => [what, `+ ${mass(addKg)}`] as const),
    ];
  }
  if (!lines || toWeighKg === null) return null;
  return (
    <table className="w-full">
      <caption className="sr-only">{chargeWords.theCharge}</caption>
      <tbody>
        {lines.map(([term, value]) => (
          <tr key={term} className="border-b border-hairline">
            <th scope="row" className="py-1.5 text-left font-normal">
              {term}
            </th>
            <td className="py-1.5 text-right font-mono">{value}</td>
          </tr>
        ))}
        <tr className="border-b-2 border-ink font-semibold">
          <th scope="row" className="py-1.5 text-left">
            {chargeWords.toWeighIn}
          </th>
          <td className="py-1.5 text-right font-mono">{mass(toWeighKg)}</td>
        </tr>
        {before !== 0 && (
          <tr className="border-b border-hairline">
            <th scope="row" className="py-1.5 text-left font-normal">
              {chargeWords.weighedInBefore}
            </th>
            <td className="py-1.5 text-right font-mono">{mass(before)}</td>
          </tr>
        )}
        {weighed !== null && (
          <tr>
            <th scope="row" className="py-1.5 text-left font-normal">
              {chargeWords.stillToGo}
            </th>
            <td className="py-1.5 text-right font-mono">{mass(toWeighKg - before - weighed)}</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

/** Weighed in by earlier entries since the last evacuation. */
function chargedBefore(entries: ReturnType<typeof useJobHere>["job"]["entries"]): number {
  const records = entries.flatMap((entry) => (entry.kind === "step-recorded" ? [entry.body] : []));
  const from = records.findLastIndex(({ step }) => step === "evacuate");
  return records
    .slice(from + 1)
    .reduce((sum, record) => (record.step === "break_and_charge" ? sum + record.evidence.weighedInKg : sum), 0);
}
