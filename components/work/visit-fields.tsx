import { CheckboxField } from "@/components/ui/checkbox-field";
import { NumberInput, TextInput } from "@/components/ui/text-input";
import { certificateName } from "@/lib/work/qualification";

export interface PlannedVisit {
  windowDay: string;
  windowFrom: string;
  windowTo: string;
  plannedStart: string;
  plannedMinutes: number;
  people: readonly string[];
}

/** The promise, the start and who goes: the same fields at intake and on the work order. Times are the site's. */
export function VisitFields(props: {
  technicians: readonly {
    personId: string;
    name: string;
    certificates: readonly { kind: string }[];
    missing?: readonly string[];
    /** Tools they hold that should not be leaned on. */
    faults?: readonly string[];
  }[];
  errors: Readonly<Record<string, string>>;
  visit?: PlannedVisit;
}) {
  const { errors, visit } = props;
  return (
    <div className="grid gap-4">
      <fieldset className="grid gap-2">
        <legend className="font-medium">Promised window, in the site's time</legend>
        <div className="grid grid-cols-2 items-end gap-3 min-[30rem]:grid-cols-[minmax(9rem,2fr)_1fr_1fr]">
          <TextInput
            label="Day"
            name="windowDay"
            type="date"
            className="col-span-full min-[30rem]:col-span-1"
            defaultValue={visit?.windowDay}
            error={errors.windowDay}
          />
          <TextInput
            label="From"
            name="windowFrom"
            type="time"
            defaultValue={visit?.windowFrom}
            error={errors.windowFrom}
          />
          <TextInput label="To" name="windowTo" type="time" defaultValue={visit?.windowTo} error={errors.windowTo} />
        </div>
      </fieldset>
      <div className="grid items-end gap-3 min-[30rem]:grid-cols-2">
        <TextInput
          label="Planned start"
          name="plannedStart"
          type="datetime-local"
          defaultValue={visit?.plannedStart}
          error={errors.plannedStart}
        />
        <NumberInput
          label="Planned length"
          name="plannedMinutes"
          unit="min"
          inputMode="numeric"
          defaultValue={visit?.plannedMinutes ?? 120}
          error={errors.plannedMinutes}
        />
      </div>
      <fieldset className="grid gap-1">
        <legend className="font-medium">Technicians</legend>
        {props.technicians.length === 0 && <p className="text-ink-soft">Nobody in this company is a technician yet.</p>}
        {props.technicians.map((each) => (
          <CheckboxField
            key={each.personId}
            name="people"
            value={each.personId}
            label={each.name}
            defaultChecked={visit?.people.includes(each.personId)}
            hint={hintFor(each)}
          />
        ))}
        {errors.people && <p className="text-refused">{errors.people}</p>}
      </fieldset>
    </div>
  );
}

function hintFor(person: {
  certificates: readonly { kind: string }[];
  missing?: readonly string[];
  faults?: readonly string[];
}) {
  const held =
    person.certificates.map((each) => certificateName[each.kind] ?? each.kind).join(", ") || "no certificate on file";
  return [
    held,
    person.missing?.length && `Missing for this circuit: ${person.missing.join("; ")}`,
    person.faults?.length && `Tools out of date, proof would be weaker: ${person.faults.join("; ")}`,
  ]
    .filter(Boolean)
    .join(". ");
}
