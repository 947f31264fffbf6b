import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { SelectField } from "@/components/ui/select-field";
import { SubmitButton } from "@/components/ui/submit-button";
import { FilterLinks } from "@/components/work/filter-links";
import { periodWords, type QualityQuery, queryText, shifted, spans, spanWord } from "@/lib/work/quality-period";
import { jobKinds, jobKindWord } from "@/lib/work/words";

/** What the figures look at: how long, up to when, which kind of job. All of it stands in the address. */
export function PeriodBar(props: { path: string; query: QualityQuery; today: string }) {
  const { path, query, today } = props;
  const [before, after] = [shifted(query, -1, today), shifted(query, 1, today)];
  return (
    <div className="grid gap-3">
      <div className="flex flex-wrap items-center gap-x-6 gap-y-2">
        <FilterLinks
          label="How long"
          chosen={query.span}
          filters={spans.map((span) => ({
            value: span,
            label: spanWord[span],
            href: `${path}?${queryText({ ...query, span })}`,
          }))}
        />
        <nav aria-label="When" className="no-print flex flex-wrap items-center gap-2">
          {before && <LinkButton href={`${path}?${queryText(before)}`}>Earlier</LinkButton>}
          {after && <LinkButton href={`${path}?${queryText(after)}`}>Later</LinkButton>}
        </nav>
        <form action={path} className="no-print flex flex-wrap items-end gap-2">
          <input type="hidden" name="span" value={query.span} />
          <input type="hidden" name="until" value={query.until} />
          <SelectField
            key={query.kind ?? ""}
            label="Kind of job"
            labelHidden
            name="kind"
            defaultValue={query.kind ?? ""}
            emptyChoice="Every kind of job"
            choices={jobKinds.map((kind) => ({ value: kind, label: jobKindWord[kind] }))}
          />
          <SubmitButton kind="quiet">Show</SubmitButton>
        </form>
      </div>
      <p>
        Jobs closed in <strong>{periodWords(query)}</strong>
        {query.kind && (
          <>
            , only {(jobKindWord as Record<string, string>)[query.kind] ?? query.kind}{" "}
            <Link href={`${path}?${queryText({ ...query, kind: null })}`} className="no-print">
              (show every kind)
            </Link>
          </>
        )}
        .
      </p>
    </div>
  );
}
