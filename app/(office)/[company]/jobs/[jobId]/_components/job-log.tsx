import { Section } from "@/components/ui/section";
import { type Happening, Timeline } from "@/components/ui/timeline";
import type { JobState, LogEntry } from "@/lib/hvac/procedure";
import { entryDetail, entryTitle } from "@/lib/work/entry-words";
import { whenInFull } from "@/lib/work/site-time";

/** The whole log as received: who, when, what, and why an entry has no effect. */
export function JobLog(props: {
  entries: readonly LogEntry[];
  state: JobState;
  names: ReadonlyMap<string, string>;
  timeZone: string;
}) {
  const { entries, state, names, timeZone } = props;
  const noEffect = new Map(state.withoutEffect.map((each) => [each.entry, each.text]));
  const undone = new Map(
    state.steps.flatMap((step) => step.invalidated.map((each) => [each.entry, each.text] as const)),
  );
  const happenings = [...entries].reverse().map((entry): Happening => {
    const why = noEffect.get(entry.id) ?? undone.get(entry.id);
    const detail = entryDetail(entry);
    return {
      id: entry.id,
      at: entry.deviceAt,
      atWords: whenInFull(new Date(entry.deviceAt), timeZone),
      title: `${entryTitle(entry)}, ${names.get(entry.person) ?? "somebody no longer here"}`,
      detail: [detail, entry.supersedes && `Corrects an earlier entry: ${entry.supersedes.why}`]
        .filter(Boolean)
        .join(" "),
      ...(why && { state: "cannot-say" as const, stateWord: `Does not count: ${why}` }),
    };
  });
  return (
    <Section
      title="Log"
      lead="Nothing in it is edited; a correction is an entry of its own. Times are the device's, in the site's zone."
    >
      <Timeline label="Entries, latest first" happenings={happenings} />
    </Section>
  );
}
