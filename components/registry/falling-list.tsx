import { Link } from "@/components/ui/link";
import type { Falling } from "@/lib/db/exceptions";
import { OIL_HOURS_LIMIT } from "@/lib/registry/tool-faults";
import { dateInFull } from "@/lib/work/site-time";

const wordsOf: Record<Falling["what"], (late: boolean, day: string, hours: number) => string> = {
  calibration: (late, day) => `calibration ${late ? "ran out" : "runs out"} ${day}`,
  check: (late, day) => `check ${late ? "was due" : "is due"} ${day}`,
  requalification: (late, day) => `requalification ${late ? "ran out" : "runs out"} ${day}`,
  oil: (late, _day, hours) =>
    `oil has run ${hours.toFixed(1)} of ${OIL_HOURS_LIMIT} h: change it${late ? "" : " soon"}`,
  doubt: (_late, day) => `differed from another one ${day}: have it calibrated`,
};

/** Tools and cylinders that must be seen to, each a way to it. */
export function FallingList(props: { company: string; falling: readonly Falling[]; today: string }) {
  const { company, falling, today } = props;
  return (
    <ul className="grid">
      {falling.map(({ id, name, register, what, due, oilRunHours, holder }) => {
        const hours = oilRunHours ?? 0;
        const late = what === "oil" ? hours >= OIL_HOURS_LIMIT : what === "doubt" || (due !== null && due < today);
        return (
          <li key={`${id} ${what}`} className="flex flex-wrap justify-between gap-x-6 border-b border-hairline py-2">
            <span>
              <Link href={`/${company}/${register}/${id}`}>{name}</Link>
              {holder && <span className="text-ink-soft">, held by {holder}</span>}
            </span>
            <span className={late ? "text-refused" : "text-needs-you"}>
              {wordsOf[what](late, due === null ? "" : dateInFull(due), hours)}
            </span>
          </li>
        );
      })}
    </ul>
  );
}
