"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { SelectField } from "@/components/ui/select-field";
import type { TextTable } from "@/lib/instruments/json-table";
import { importWords } from "@/lib/words/en/import";
import { useDevice } from "../device/device-context";
import { useJobHere } from "../job/job-context";

interface Sent {
  readonly at: string;
  readonly value: number;
  readonly unit: string;
  readonly temperatureC?: number;
}

const BACK_MINUTES = [15, 30, 60, 180, 720];

/** Readings a gauge of the register sent to the server by itself, as a table for the step in sight. */
export function SentByInstrument({ vacuum, onTable }: { vacuum: boolean; onTable: (table: TextTable) => void }) {
  const { desk, ask } = useDevice();
  const { job } = useJobHere();
  const gauges = job.heading.tools.filter(({ kind }) => kind === (vacuum ? "vacuum-gauge" : "pressure-gauge"));
  const [chosen, setChosen] = useState("");
  const [minutes, setMinutes] = useState(30);
  const [pending, setPending] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  if (gauges.length === 0) return null;
  const toolId = chosen || gauges[0]!.id;

  async function fetchThem() {
    setPending(true);
    setProblem(null);
    const to = new Date();
    const span = new URLSearchParams({
      from: new Date(to.getTime() - minutes * 60_000).toISOString(),
      to: to.toISOString(),
    });
    const response = await ask(`/api/${desk.slug}/tools/${toolId}/readings?${span}`, {}).catch(() => null);
    setPending(false);
    if (!response?.ok) return setProblem(importWords.serverNotReached);
    const { readings } = (await response.json()) as { readings: Sent[] };
    const last = readings.at(-1);
    if (!last) return setProblem(importWords.sentNothing(minutes));
    if (readings.some(({ unit }) => unit !== last.unit)) return setProblem(importWords.itChangedItsUnit);
    const warm = readings.some(({ temperatureC }) => temperatureC !== undefined);
    onTable({
      heading: ["time", `pressure (${last.unit})`, ...(warm ? [importWords.temperatureC] : [])],
      rows: readings.map(({ at, value, temperatureC }) => [
        at,
        String(value),
        ...(warm ? [String(temperatureC ?? "")] : []),
      ]),
    });
  }

  return (
    <fieldset className="grid gap-3 border-t border-hairline pt-4">
      <legend className="font-medium">{importWords.orWhatTheGauge}</legend>
      <div className="grid items-end gap-3 pair:grid-cols-2">
        <SelectField
          label={importWords.gauge}
          value={toolId}
          choices={gauges.map(({ id, name, serial }) => ({ value: id, label: serial ? `${name} (${serial})` : name }))}
          onChange={(event) => setChosen(event.target.value)}
        />
        <SelectField
          label={importWords.ofTheLast}
          value={String(minutes)}
          choices={BACK_MINUTES.map((each) => ({
            value: String(each),
            label: each < 120 ? importWords.minutesBack(each) : importWords.hoursBack(each / 60),
          }))}
          onChange={(event) => setMinutes(Number(event.target.value))}
        />
      </div>
      {problem && <ErrorNotice happened={problem} safe={importWords.nothingTakenIn} />}
      <Button pending={pending} pendingWord={importWords.fetching} onClick={() => void fetchThem()}>
        {importWords.fetchThem}
      </Button>
    </fieldset>
  );
}
