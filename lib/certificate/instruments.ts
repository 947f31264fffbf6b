import type { LogEntry, StepRecord } from "@/lib/hvac/procedure";
import { stepName } from "@/lib/hvac/procedure";
import { madeWord } from "@/lib/work/evidence-lines";

export interface InstrumentLine {
  readonly label: string;
  readonly used: string;
  readonly calibration: string;
  readonly detail: string;
}

/** Every instrument the counted records name: what it was used for, its calibration on the day, and how fine it reads. */
export function listInstruments(entries: readonly LogEntry[]): InstrumentLine[] {
  const lines = entries.flatMap((entry) =>
    entry.kind === "step-recorded"
      ? toolsOf(entry.body).map((tool) => ({ ...tool, step: entry.body.step, on: entry.deviceAt.slice(0, 10) }))
      : [],
  );
  const byTool = new Map<string, typeof lines>();
  for (const line of lines) {
    const key = `${line.label}\n${line.due ?? ""}\n${line.detail}`;
    byTool.set(key, [...(byTool.get(key) ?? []), line]);
  }
  return [...byTool.values()].map((uses) => {
    const last = uses.at(-1)!;
    return {
      label: last.label,
      used: [...new Set(uses.map(({ step }) => stepName(step)))].join(", "),
      calibration: calibrationWords(last.due, last.on),
      detail: last.detail,
    };
  });
}

function calibrationWords(due: string | null | undefined, usedOn: string): string {
  if (due === undefined) return "";
  if (due === null) return "no calibration date known";
  return usedOn > due ? `calibration was due ${due}: out of date` : `calibrated, next due ${due}`;
}

interface Tool {
  readonly label: string;
  /** Undefined where the kind of tool has no calibration at all. */
  readonly due?: string | null;
  readonly detail: string;
}

function toolsOf(record: StepRecord): Tool[] {
  switch (record.step) {
    case "recover": {
      const { machine } = record.evidence;
      return machine ? [{ label: machine.label, detail: `made ${madeWord[machine.dateClass]}` }] : [];
    }
    case "pressure_test": {
      const { gauge, temperatureAccuracyC, source } = record.evidence;
      const detail = `reads to ${gauge.resolutionKPa} kPa, accuracy ${gauge.accuracyPercent} %; temperatures to ${temperatureAccuracyC} °C; ${sourceWord[source]}`;
      return [{ label: gauge.label, due: gauge.calibrationDueOn, detail }];
    }
    case "leak_check": {
      const byLabel = new Map(record.evidence.joints.map((joint) => [joint.instrument, joint]));
      return [...byLabel.values()].map(({ instrument, method, sensitivityGramPerYear }) => ({
        label: instrument,
        detail: sensitivityGramPerYear === null ? method : `${method}, shows ${sensitivityGramPerYear} g/yr`,
      }));
    }
    case "evacuate": {
      const { gauge, pump, oil } = record.evidence;
      const speed = pump.litresPerSecond === null ? "" : `${pump.litresPerSecond} L/s; `;
      return [vacuumGauge(gauge), { label: pump.label, detail: `${speed}oil ${oil.replaceAll("-", " ")}` }];
    }
    case "hold":
      return [vacuumGauge(record.evidence.gauge)];
    case "break_and_charge": {
      const { scale } = record.evidence;
      return [{ label: scale.label, due: scale.calibrationDueOn, detail: `reads to ${scale.resolutionKg * 1000} g` }];
    }
    default:
      return [];
  }
}

function vacuumGauge(gauge: {
  label: string;
  calibrationDueOn: string | null;
  location: string;
  resolutionMicron: number;
  accuracyPercent: number;
  radioName?: string;
  comparedWith?: { radioName: string; micron: number; ownMicron: number };
}): Tool {
  const { radioName, comparedWith } = gauge;
  const heard = radioName === undefined ? "" : `; wrote by radio as ${radioName}`;
  const beside =
    comparedWith === undefined
      ? ""
      : `; ${Math.round(comparedWith.ownMicron)} micron beside ${Math.round(comparedWith.micron)} of ${comparedWith.radioName}`;
  const detail = `at the ${gauge.location}; reads to ${gauge.resolutionMicron} micron, accuracy ${gauge.accuracyPercent} %${heard}${beside}`;
  return { label: gauge.label, due: gauge.calibrationDueOn, detail };
}

const sourceWord = {
  typed: "typed by hand",
  file: "from a file",
  http: "sent by the instrument",
  bluetooth: "by radio",
};
