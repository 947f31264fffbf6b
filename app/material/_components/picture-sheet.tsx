import { Section } from "@/components/ui/section";
import { emptyTrace, traceOf } from "@/components/vacuum-picture/trace";
import { VacuumPicture } from "@/components/vacuum-picture/vacuum-picture";
import { VacuumPictureLive } from "@/components/vacuum-picture/vacuum-picture-live";
import { micron, sampleBand, sampleEvents, sampleHold, sampleWithGap } from "./sample-traces";

const lines = {
  targetPa: micron(500),
  limitPa: micron(1000),
  water: { pressurePa: micron(19_230), wallWords: "21.5 °C" },
};

export function PictureSheet() {
  const hold = sampleHold(560);
  return (
    <Section
      title="The vacuum picture"
      lead="Invented records. Drag along one, or use the arrow keys on it, to read a moment."
    >
      <VacuumPictureLive
        title="Hold on the walk-in cooler, circuit 1"
        trace={hold}
        {...lines}
        isolatedAtS={2400}
        events={[...sampleEvents]}
        band={sampleBand(560)}
        settlesAt={{ estimatePa: micron(560), loPa: micron(520), hiPa: micron(610) }}
        lastWord="now"
        verdict={{
          state: "working",
          word: "Holding",
          sentence: "Levelling off under the limit; 6 more minutes make it a proof.",
        }}
      />
      <VacuumPicture
        title="The same hold close up"
        trace={hold}
        span={{ fromS: 2340, toS: 4200 }}
        targetPa={lines.targetPa}
        limitPa={lines.limitPa}
        isolatedAtS={2400}
        events={[sampleEvents[3]]}
        band={sampleBand(560)}
        settlesAt={{ estimatePa: micron(560), loPa: micron(520), hiPa: micron(610) }}
        closeUp
        verdict={{
          state: "proven",
          sentence: "Dry and tight: heading for 560 micron, no leak above 2 micron a minute.",
        }}
      />
      <VacuumPicture
        title="A wet circuit, in mbar"
        unit="mbar"
        trace={sampleHold(1900)}
        {...lines}
        isolatedAtS={2400}
        events={[...sampleEvents]}
        settlesAt={{ estimatePa: micron(1900), loPa: micron(1700), hiPa: micron(2150) }}
        verdict={{
          state: "refused",
          word: "Wet",
          sentence: "The level rises and evens out at 1,900 micron, above the limit of 1,000.",
        }}
      />
      <VacuumPicture
        title="A record with a gap"
        trace={sampleWithGap()}
        {...lines}
        isolatedAtS={2400}
        events={[sampleEvents[3]]}
      />
      <div className="grid gap-6 wide:grid-cols-3">
        <VacuumPicture
          title="One reading"
          widthPx={380}
          heightPx={260}
          trace={traceOf([{ atS: 0, pressureAbsPa: micron(812) }])}
          targetPa={lines.targetPa}
        />
        <VacuumPicture title="No readings" widthPx={380} heightPx={260} trace={emptyTrace} targetPa={lines.targetPa} />
        <VacuumPicture title="Being fetched" widthPx={380} heightPx={260} trace={emptyTrace} loading />
      </div>
    </Section>
  );
}
