import type { Metadata } from "next";
import { Button } from "@/components/ui/button";
import { Ladder } from "@/components/ui/ladder";
import { Quantity } from "@/components/ui/quantity";
import { StateMark } from "@/components/ui/state-mark";
import { SyncLine, TabletFrame } from "@/components/ui/tablet-frame";
import { lastDrawable } from "@/components/vacuum-picture/labels";
import { VacuumPictureLive } from "@/components/vacuum-picture/vacuum-picture-live";
import { paToMicron } from "@/lib/hvac";
import { micron, sampleBand, sampleEvents, sampleHold } from "../_components/sample-traces";

export const metadata: Metadata = { title: "A tablet step" };

/** A hold as the tablet shows it, with an invented record. */
export default function TabletSample() {
  const hold = sampleHold(560);
  return (
    <TabletFrame
      title="1043 Hold"
      back={{ href: "/material", label: "Back to the material" }}
      sync={<SyncLine state="saved-here" waiting={4} />}
      ladder={
        <Ladder
          label="Steps of job 1043"
          currentId="hold"
          rungs={[
            { id: "recover", name: "Recover", state: "proven" },
            { id: "pressure", name: "Pressure test", state: "proven" },
            { id: "leak", name: "Leak check", state: "proven" },
            { id: "evacuate", name: "Evacuate", state: "proven" },
            { id: "hold", name: "Hold", state: "working" },
            { id: "charge", name: "Charge", state: "waiting" },
          ]}
        />
      }
      actions={
        <>
          <Button kind="action">Record a reading</Button>
          <Button>Cannot do this</Button>
        </>
      }
    >
      <h1 className="text-title">Leave the valve closed and watch the level</h1>
      <div>
        <Quantity value={Math.round(paToMicron(lastDrawable(hold) ?? 0))} unit="micron" live />
        <p className="text-body">
          <StateMark state="working" word="Rising more slowly" />, 20 min since isolation
        </p>
      </div>
      <VacuumPictureLive
        title="Hold on the walk-in cooler, circuit 1"
        textPx={16}
        trace={hold}
        targetPa={micron(500)}
        limitPa={micron(1000)}
        water={{ pressurePa: micron(19_230), wallWords: "21.5 °C" }}
        isolatedAtS={2400}
        events={[...sampleEvents]}
        band={sampleBand(560)}
        settlesAt={{ estimatePa: micron(560), loPa: micron(520), hiPa: micron(610) }}
        lastWord="now"
        figures={false}
        verdict={{
          state: "working",
          word: "Holding",
          sentence: "Levelling off under the limit; 6 more minutes make it a proof.",
        }}
      />
    </TabletFrame>
  );
}
