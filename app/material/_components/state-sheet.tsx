import { Button } from "@/components/ui/button";
import { Ladder } from "@/components/ui/ladder";
import { Banner, type BannerKind, Callout, EmptyState, ErrorNotice, ForbiddenNotice } from "@/components/ui/notices";
import { LoadingLines, Progress } from "@/components/ui/progress";
import { Section } from "@/components/ui/section";
import { type State, StateMark } from "@/components/ui/state-mark";
import { Table } from "@/components/ui/table";
import { SyncLine } from "@/components/ui/tablet-frame";
import { Timeline } from "@/components/ui/timeline";
import { VacuumSparkline } from "@/components/vacuum-picture/vacuum-sparkline";
import { micron, sampleHold } from "./sample-traces";

const states: readonly State[] = ["proven", "working", "waiting", "needs-you", "refused", "cannot-say"];
const banners: readonly [BannerKind, string][] = [
  ["saved-here", "Saved here. 4 readings wait for a signal."],
  ["sending", "Sending 4 readings."],
  ["sent", "Sent. Everything is with the office."],
  ["problem", "The tablet's storage is full. Nothing new can be saved here until photos are sent."],
  ["note", "You were taken off this job at 14:10. Your work is kept."],
];
const holds = [
  { id: "1043", unit: "Walk-in cooler, circuit 1", state: "proven", settle: 480, last: 476 },
  { id: "1044", unit: "Rooftop unit 3, circuit 2", state: "refused", settle: 1900, last: 1712 },
  { id: "1051", unit: "Ice machine", state: "working", settle: 640, last: 612 },
] as const;

export function StateSheet() {
  return (
    <>
      <Section title="States" lead="Shape, word and colour together; any two of them are enough.">
        <div className="flex flex-wrap gap-x-6 gap-y-2">
          {states.map((state) => (
            <StateMark key={state} state={state} />
          ))}
        </div>
        <div className="flex flex-wrap gap-x-6 gap-y-2">
          <SyncLine state="saved-here" waiting={4} />
          <SyncLine state="sending" waiting={2} />
          <SyncLine state="sent" detail="14:32" />
          <SyncLine state="not-sent" waiting={1} />
        </div>
        <div className="grid">
          {banners.map(([kind, words]) => (
            <Banner key={kind} kind={kind} {...(kind === "problem" && { action: <Button>Show what waits</Button> })}>
              {words}
            </Banner>
          ))}
        </div>
      </Section>
      <Section title="Notices">
        <Callout title="Nitrogen under pressure">
          Use a regulator and stay under the low side&apos;s design pressure. The equipment maker&apos;s instructions
          and the local code go first.
        </Callout>
        <Callout kind="note" title="Pump oil takes up water">
          Change it before a hold when it looks milky or was used on a wet circuit.
        </Callout>
        <ErrorNotice
          happened="The work order could not be saved."
          safe="What you typed is still on this page."
          todo="Check the connection and save again."
          action={<Button>Save again</Button>}
        />
        <ForbiddenNotice who="A supervisor can allow an override." />
        <EmptyState title="No calls today" action={<Button kind="action">Take a call</Button>}>
          Calls without a place in the day stand here, the most urgent first.
        </EmptyState>
        <div className="grid gap-6 wide:grid-cols-2">
          <LoadingLines label="Fetching the unit's history" />
          <div className="grid content-start gap-4">
            <Progress label="Importing sites" value={340} max={512} detail="340 of 512 lines" />
            <Progress label="Checking the file" />
          </div>
        </div>
      </Section>
      <Section title="Lists">
        <Table
          caption="Holds of this week (invented)"
          narrow="cards"
          rows={holds}
          rowKey={(row) => row.id}
          columns={[
            { key: "id", header: "Work order", cell: (row) => <a href="/material">{row.id}</a> },
            { key: "unit", header: "Unit", cell: (row) => row.unit },
            {
              key: "trace",
              header: "Hold",
              cell: (row) => (
                <VacuumSparkline
                  title={`Hold of ${row.id}`}
                  trace={sampleHold(row.settle)}
                  targetPa={micron(500)}
                  isolatedAtS={2400}
                  settlesAt={{
                    estimatePa: micron(row.settle),
                    loPa: micron(row.settle * 0.9),
                    hiPa: micron(row.settle * 1.1),
                  }}
                />
              ),
            },
            { key: "last", header: "Last, micron", numeric: true, cell: (row) => row.last.toLocaleString("en-US") },
            { key: "state", header: "State", cell: (row) => <StateMark state={row.state} /> },
          ]}
        />
        <div className="grid gap-8 wide:grid-cols-2">
          <Ladder
            label="Steps of job 1043"
            currentId="hold"
            rungs={[
              { id: "recover", name: "Recover", state: "proven", note: "4.1 kg", href: "/material" },
              { id: "repair", name: "Repair", state: "proven", href: "/material" },
              { id: "pressure", name: "Pressure test", state: "proven", note: "24 h", href: "/material" },
              { id: "leak", name: "Leak check", state: "needs-you", note: "2 joints left", href: "/material" },
              { id: "evacuate", name: "Evacuate", state: "cannot-say", href: "/material" },
              { id: "hold", name: "Hold", state: "working", href: "/material" },
              { id: "charge", name: "Charge", state: "waiting" },
              { id: "close", name: "Close", state: "refused", note: "3 things missing" },
            ]}
          />
          <Timeline
            label="What happened on job 1043"
            happenings={[
              {
                id: "1",
                at: "2026-03-14T09:05:00-07:00",
                atWords: "09:05",
                title: "Arrived on site",
                detail: "Ines Halvard",
              },
              {
                id: "2",
                at: "2026-03-14T10:40:00-07:00",
                atWords: "10:40",
                title: "Pressure test",
                state: "proven",
                detail: "No leak above 2 kPa/h",
              },
              {
                id: "3",
                at: "2026-03-14T13:12:00-07:00",
                atWords: "13:12",
                title: "First hold",
                state: "refused",
                stateWord: "Wet",
                detail: "Heading for 1,900 micron, limit 1,000",
              },
            ]}
          />
        </div>
      </Section>
    </>
  );
}
