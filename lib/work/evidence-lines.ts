import type { StepRecord } from "@/lib/hvac/procedure";
import { fromKelvin, fromKg, fromPa, micronToPa, toKelvin, toPa } from "@/lib/hvac/units";

// Both systems stand side by side: the sheet is read by technicians, customers and inspectors.

export const massText = (kg: number) => `${kg.toFixed(2)} kg (${fromKg(kg, "lb").toFixed(2)} lb)`;
export const gaugeText = (kPaGauge: number) =>
  `${kPaGauge.toFixed(0)} kPa (${fromPa(toPa(kPaGauge, "kPa"), "psi").toFixed(1)} psig)`;
export const temperatureText = (c: number) => `${c.toFixed(1)} °C (${fromKelvin(toKelvin(c, "C"), "F").toFixed(1)} °F)`;
export const vacuumText = (micron: number) => `${Math.round(micron)} micron (${micronToPa(micron).toFixed(1)} Pa)`;
export const madeWord = {
  "before-1993-11-15": "before 1993-11-15",
  "on-or-after-1993-11-15": "on or after 1993-11-15",
} as const;
const yes = (answer: boolean) => (answer ? "yes" : "no");

/** What a step's record holds, as short lines with units; for the close-out sheet and for reading a finished step. */
export function evidenceLines(record: StepRecord): string[] {
  switch (record.step) {
    case "make_safe": {
      const e = record.evidence;
      return [
        `Locked out: ${yes(e.lockedOut)}${e.lockedOutBy ? `, by ${e.lockedOutBy}` : ""}; proven dead: ${yes(e.provenDead)}; stored energy discharged: ${yes(e.storedEnergyDischarged)}`,
        `Ventilated: ${yes(e.ventilated)}; ignition sources controlled: ${yes(e.ignitionSourcesControlled)}`,
        ...(e.flammable
          ? [
              `Gas detector on: ${yes(e.flammable.detectorOn)}; zone marked: ${yes(e.flammable.zoneMarked)}; extinguisher at hand: ${yes(e.flammable.extinguisherAtHand)}`,
            ]
          : []),
      ];
    }
    case "recover": {
      const e = record.evidence;
      return [
        `Reached ${gaugeText(e.finalGaugeKPa)}, after ${e.waitedMinutes} min ${gaugeText(e.afterWaitGaugeKPa)}; barometer ${e.atmosphericKPa} kPa`,
        ...(e.machine
          ? [`Machine: ${e.machine.label}, made ${madeWord[e.machine.dateClass]}`]
          : [`Method: ${e.method}`]),
        ...e.cylinders.map(
          (each) =>
            `Cylinder ${each.label}: ${massText(each.grossBeforeKg)} before, ${massText(each.grossAfterKg)} after`,
        ),
        ...(e.alternative ? [`By the rule's own alternative: ${e.alternative.code.replaceAll("-", " ")}`] : []),
      ];
    }
    case "open_repair": {
      const e = record.evidence;
      return [
        `${e.work}${e.majorRepair ? " (major repair)" : ""}`,
        `Parts: ${e.parts.map((part) => part.name).join(", ") || "none"}; joints: ${e.joints.join(", ") || "none"}`,
        `Brazing: ${e.brazing.replaceAll("-", " ")}; new drier: ${e.newDrier}; contamination: ${e.contamination}; acid test: ${e.acidTest}`,
      ];
    }
    case "pressure_test": {
      const e = record.evidence;
      const readings = e.record.kept === "inline" ? e.record.readings : [];
      const [first, last] = [readings[0], readings.at(-1)];
      return [
        `Gas: ${e.gas}; gauge ${e.gauge.label}; volume ${e.internalVolumeL} L`,
        ...(first && last
          ? [
              `${gaugeText(first.kPaGauge)} at ${temperatureText(first.temperatureC)}, ${((last.s - first.s) / 60).toFixed(0)} min later ${gaugeText(last.kPaGauge)} at ${temperatureText(last.temperatureC)}`,
            ]
          : [`${e.record.kept === "trace" ? e.record.trace.sampleCount : 0} readings kept as a trace`]),
      ];
    }
    case "leak_check":
      return [
        `At ${gaugeText(record.evidence.checkedAtGaugeKPa)}`,
        ...record.evidence.joints.map(
          (joint) =>
            `${joint.joint}: ${joint.result}, ${joint.method} (${joint.instrument}${joint.sensitivityGramPerYear ? `, ${joint.sensitivityGramPerYear} g/yr` : ""})`,
        ),
      ];
    case "evacuate": {
      const e = record.evidence;
      return [
        `Pump: ${e.pump.label}, oil ${e.oil}${e.oilChangedAt ? " (changed on this job)" : ""}; cores out: ${yes(e.coresOut)}; gauge ${e.gauge.label} at the ${e.gauge.location}`,
        ...e.sweeps.map((sweep) => `Pulled to ${vacuumText(sweep.pulledToMicron)}, broken with ${sweep.brokenWith}`),
        ...(e.record.kept === "inline" && e.record.readings.length > 0
          ? [`Down to ${vacuumText(Math.min(...e.record.readings.map((reading) => reading.micron)))}`]
          : []),
      ];
    }
    case "hold": {
      const e = record.evidence;
      return [
        `Volume ${e.internalVolumeL} L; wall ${temperatureText(e.wallTemperatureC)}; gauge ${e.gauge.label} at the ${e.gauge.location}, ${e.gauge.accuracyPercent} %`,
      ];
    }
    case "break_and_charge": {
      const e = record.evidence;
      return [
        `Vacuum broken with ${e.brokenWith.replaceAll("-", " ")}; ${massText(e.weighedInKg)} weighed in on ${e.scale.label}`,
        ...e.cylinders.map(
          (each) =>
            `Cylinder ${each.label}: ${massText(each.grossBeforeKg)} before, ${massText(each.grossAfterKg)} after`,
        ),
      ];
    }
    case "close": {
      const e = record.evidence;
      return [
        `Cores in: ${yes(e.coresIn)}; caps fitted: ${yes(e.capsWithSealsFitted)}, tightened: ${yes(e.capsTightened)}; ports ${e.portLeakCheck.result} (${e.portLeakCheck.method})`,
      ];
    }
    case "performance": {
      const e = record.evidence;
      return [
        `Ran ${e.ranMinutes} min at ${temperatureText(e.outdoorDryBulbC)} outside`,
        ...(e.suction
          ? [`Suction ${gaugeText(e.suction.kPaGauge)}, line ${temperatureText(e.suction.lineTemperatureC)}`]
          : []),
        ...(e.liquid
          ? [`Liquid ${gaugeText(e.liquid.kPaGauge)}, line ${temperatureText(e.liquid.lineTemperatureC)}`]
          : []),
      ];
    }
    case "records": {
      const e = record.evidence;
      return [
        `Label attached: ${yes(e.labelAttached)}${e.signedByCertificate ? `; certificate ${e.signedByCertificate}` : ""}`,
      ];
    }
  }
}
