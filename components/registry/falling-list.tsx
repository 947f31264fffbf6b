import { Link } from "@/components/ui/link";
import type { Falling } from "@/lib/db/exceptions";
import { dateWords } from "@/lib/work/site-time";

const wordsOf: Record<Falling["what"], (late: boolean, day: string) => string> = {
  calibration: (late, day) => `calibration ${late ? "ran out" : "runs out"} ${day}`,
  check: (late, day) => `check ${late ? "was due" : "is due"} ${day}`,
  requalification: (late, day) => `requalification ${late ? "ran out" : "runs out"} ${day}`,
  oil: () => "oil has run its hours: change it",
  doubt: (_late, day) => `differed from another one ${day}: have it calibrated`,
};

/** Tools and cylinders that must be seen to, each a way to it. */
export function FallingList(props: { company: string; falling: readonly Falling[]; today: string }) {
  const { company, falling, today } = props;
  return (
    <ul className="grid">
      {falling.map(({ id, name, register, what, due, holder }) => {
        const late = what === "doubt" || what === "oil" || (due !== null && due < today);
        return (
          <li key={`${id} ${what}`} className="flex flex-wrap justify-between gap-x-6 border-b border-hairline py-2">
            <span>
              <Link href={`/${company}/${register}/${id}`}>{name}</Link>
              {holder && <span className="text-ink-soft">, held by {holder}</span>}
            </span>
            <span className={late ? "text-refused" : "text-needs-you"}>
              {wordsOf[what](late, due === null ? "" : dateWords(due))}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
