import { Section } from "@/components/ui/section";
import { SubmitButton } from "@/components/ui/submit-button";
import type { LogEntry } from "@/lib/hvac/procedure";
import type { JobId } from "@/lib/ids";
import { picturesOf } from "@/lib/work/pictures-of";
import { whenInFull } from "@/lib/work/site-time";
import { erase } from "../picture-actions";

/** Photos and signatures the log names, as far as they have arrived; who may can erase one, which the log survives. */
export function JobPictures(props: {
  company: string;
  jobId: JobId;
  entries: readonly LogEntry[];
  arrived: ReadonlyMap<string, "here" | "erased">;
  names: ReadonlyMap<string, string>;
  timeZone: string;
  mayErase: boolean;
}) {
  const { company, jobId, entries, arrived, names, timeZone, mayErase } = props;
  const seen = new Set<string>();
  const named = entries
    .flatMap((entry) => picturesOf(entry).map((picture) => ({ ...picture, entry })))
    .filter(({ id }) => !seen.has(id) && seen.add(id)); // a correction names the same ones again
  if (named.length === 0) return null;
  return (
    <Section
      title="Photos and signatures"
      lead="The log holds each by a salted hash. An erased one is gone for good; its hash stays and proves nothing alone."
    >
      <ul className="grid grid-cols-[repeat(auto-fill,minmax(14rem,1fr))] gap-6">
        {named.map(({ id, kind, words, entry }) => {
          const address = `/api/${company}/jobs/${jobId}/pictures/${id}`;
          const by = `${whenInFull(new Date(entry.deviceAt), timeZone)}, ${names.get(entry.person) ?? "somebody no longer here"}`;
          return (
            <li key={id} className="grid content-start gap-2">
              {arrived.get(id) === "here" ? (
                <a href={address}>
                  <img
                    src={address}
                    alt={`${words}, ${by}`}
                    loading="lazy"
                    className="max-h-48 max-w-full rounded-control border border-hairline bg-white"
                  />
                </a>
              ) : (
                <p className="grid min-h-24 place-items-center rounded-control border border-hairline bg-sunk p-3 text-small text-ink-soft">
                  {arrived.get(id) === "erased"
                    ? "Erased"
                    : `The ${kind} is still on a tablet and comes when it has a network.`}
                </p>
              )}
              <p className="text-small">
                {words}
                <br />
                <span className="text-ink-soft">{by}</span>
              </p>
              {mayErase && arrived.get(id) === "here" && (
                <details className="text-small">
                  <summary className="flex min-h-6 w-fit cursor-pointer items-center text-ink-soft">
                    Erase<span className="sr-only"> {words}</span>
                  </summary>
                  <form action={erase} className="grid justify-items-start gap-2 pt-2">
                    <input type="hidden" name="company" value={company} />
                    <input type="hidden" name="jobId" value={jobId} />
                    <input type="hidden" name="pictureId" value={id} />
                    <p>It cannot be brought back.</p>
                    <SubmitButton kind="danger">Erase for good</SubmitButton>
                  </form>
                </details>
              )}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
