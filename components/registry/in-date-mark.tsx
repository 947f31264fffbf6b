import { StateMark } from "@/components/ui/state-mark";
import { judgeInDate } from "@/lib/registry/in-date";
import { dateInFull } from "@/lib/work/site-time";

/** A last day with how it stands today, in words and shape. */
export function InDateMark(props: { lastDay: string | null; today: string; none?: string }) {
  const { lastDay, today } = props;
  const day = lastDay && <time dateTime={lastDay}>{dateInFull(lastDay)}</time>;
  switch (judgeInDate(lastDay, today)) {
    case "in-date":
      return <span>{day}</span>;
    case "due-soon":
      return (
        <span>
          {day} <StateMark state="needs-you" word="Due soon" />
        </span>
      );
    case "out-of-date":
      return (
        <span>
          {day} <StateMark state="refused" word="Out of date" />
        </span>
      );
    case "no-date":
      return <StateMark state="cannot-say" word={props.none ?? "No date"} />;
  }
}
