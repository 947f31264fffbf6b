"use client";

import { useState } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { CheckboxField } from "@/components/ui/checkbox-field";
import { RadioCards } from "@/components/ui/choice-cards";
import { Dialog, DialogClose, Sheet } from "@/components/ui/dialog";
import { Finder } from "@/components/ui/finder";
import { NumberPad } from "@/components/ui/number-pad";
import { Popover, Tooltip } from "@/components/ui/popover";
import { Section } from "@/components/ui/section";
import { SelectField } from "@/components/ui/select-field";
import { Tabs } from "@/components/ui/tabs";
import { DateTimeField, NumberInput, TextArea, TextInput } from "@/components/ui/text-input";

const units = [
  { value: "u1", label: "Walk-in cooler", detail: "Northfold Bakery, circuit 1, R-449A" },
  { value: "u2", label: "Rooftop unit 3", detail: "Harbour Hall, circuit 2, R-410A" },
  { value: "u3", label: "Ice machine", detail: "Northfold Bakery, R-290" },
];

export function ControlSheet() {
  const [recorded, setRecorded] = useState<number>();
  return (
    <>
      <Section title="Buttons">
        <div className="flex flex-wrap items-center gap-2">
          <Button kind="action">Close the job</Button>
          <Button>Print</Button>
          <Button kind="plain">Show all</Button>
          <Button kind="danger">Throw the plan away</Button>
          <Button kind="action" pending pendingWord="Closing">
            Close the job
          </Button>
          <Button disabled>Not yet</Button>
          <LinkButton href="/material">Open the work order</LinkButton>
          <Button kind="action" place="tablet">
            Start the hold
          </Button>
          <Button place="tablet">Cannot do this</Button>
        </div>
        <div className="flex flex-wrap items-center gap-2">
          <Dialog
            title="Leave job 1043 for today"
            lead="The visit ends, the job stays open."
            trigger={<Button>Leave for today</Button>}
            actions={
              <>
                <DialogClose>
                  <Button>Keep working</Button>
                </DialogClose>
                <DialogClose>
                  <Button kind="action">Leave it</Button>
                </DialogClose>
              </>
            }
          >
            <TextArea label="What is missing" defaultValue="Two joints to check, hold not started." />
          </Dialog>
          <Sheet title="History of the unit" trigger={<Button>History</Button>}>
            <p>Three earlier visits, the last with weak proof.</p>
          </Sheet>
          <Popover title="How sure is this" trigger={<Button>How sure</Button>}>
            The record could have shown a leak of 2.1 micron a minute.
          </Popover>
          <Tooltip words="Needs a certificate for flammables">
            <Button>Assign</Button>
          </Tooltip>
        </div>
      </Section>
      <Section title="Fields">
        <div className="grid items-start gap-x-6 gap-y-4 wide:grid-cols-2">
          <TextInput label="Customer" name="customer" defaultValue="Northfold Bakery" />
          <TextInput label="Site access" optional hint="Codes and keys, seen only by who goes there" />
          <TextInput label="Phone" defaultValue="555 01" error="Too short: a number has at least seven digits." />
          <NumberInput label="Factory charge" unit="kg" defaultValue="4.25" />
          <NumberInput
            label="Target"
            unit="micron"
            defaultValue="−20"
            error="A pressure under zero cannot be a target."
          />
          <SelectField
            label="Urgency"
            emptyChoice="Choose"
            choices={[
              { value: "now", label: "Product or people at risk" },
              { value: "day", label: "Today" },
              { value: "week", label: "This week" },
            ]}
          />
          <DateTimeField label="Promised from" zone="Site time, Phoenix" defaultValue="2026-03-14T13:00" />
          <Finder
            label="Unit"
            choices={units}
            placeholder="Type a unit, site or refrigerant"
            hint="Three letters are enough"
          />
          <TextArea label="What is wrong" rows={3} defaultValue="Warm since the morning, ice on the suction line." />
          <TextInput label="Serial number" defaultValue="K-0118-B" readOnly hint="From the nameplate" />
        </div>
        <CheckboxField label="Customer was told the price" hint="Asked before the circuit is opened" />
        <CheckboxField label="Cores are out" error="Needed before the pump is started." />
        <RadioCards
          label="Kind of job"
          name="kind"
          columns={3}
          defaultValue="repair"
          cards={[
            { value: "repair", label: "Leak repair", detail: "Opens the circuit" },
            { value: "replace", label: "Compressor change", detail: "Opens the circuit" },
            { value: "unknown", label: "Not known yet", detail: "Decided on site" },
          ]}
        />
        <Tabs
          label="Readings of the unit"
          tabs={[
            { id: "visits", label: "Visits", count: 3, content: <p>Three visits in a year.</p> },
            { id: "holds", label: "Holds", count: 2, content: <p>Two holds, one weak.</p> },
            { id: "charge", label: "Refrigerant", content: <p>4.1 kg recovered, 4.25 kg charged.</p> },
          ]}
        />
      </Section>
      <Section title="The tablet's number pad">
        <div className="flex flex-wrap gap-x-12 gap-y-6">
          <NumberPad
            label="Micron gauge at the system"
            unit="micron"
            decimals={0}
            plausible={{ low: 50, high: 20_000 }}
            warning="A dropped packet or a closed valve may be behind it. Read again, then record what you see."
            onConfirm={setRecorded}
          />
          <NumberPad
            label="Wall temperature"
            unit="°C"
            decimals={1}
            negative
            initial={21.5}
            onConfirm={setRecorded}
            confirmWord="Take it"
          />
        </div>
        {recorded !== undefined && <output>Recorded {recorded}</output>}
      </Section>
    </>
  );
}
