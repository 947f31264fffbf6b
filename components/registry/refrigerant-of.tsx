import { StateMark } from "@/components/ui/state-mark";

/** What is in a circuit as far as anyone knows, never the nameplate passed off as that. */
export function RefrigerantOf(props: {
  circuit: { nameplateRefrigerant: string | null; refrigerantState: string; actualRefrigerant: string | null };
}) {
  const { nameplateRefrigerant: nameplate, refrigerantState, actualRefrigerant: actual } = props.circuit;
  const plate = nameplate ? `nameplate ${nameplate}` : "no nameplate";
  switch (refrigerantState) {
    case "identified":
      return <span>{actual}</span>;
    case "retrofitted":
      return (
        <span>
          {actual} <span className="text-small text-ink-soft">retrofitted, {plate}</span>
        </span>
      );
    case "mixed":
      return (
        <span>
          <StateMark state="needs-you" word="Mixed" /> <span className="text-small text-ink-soft">{plate}</span>
        </span>
      );
    default:
      return (
        <span>
          <StateMark state="cannot-say" word="Not known" /> <span className="text-small text-ink-soft">{plate}</span>
        </span>
      );
  }
}
