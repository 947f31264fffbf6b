import { controlsWords } from "@/lib/words/en/controls";
import { classNames } from "./class-names";

/**
 * A number with its unit, the unit smaller and never apart from it. `digits` are decimals; a value that cannot be
 * said is passed as null and shown as a dash with words.
 */
export function Quantity(props: {
  value: number | null;
  unit: string;
  digits?: number;
  signed?: boolean;
  live?: boolean;
  locale?: string;
  className?: string;
}) {
  const { value, unit, digits = 0, signed = false, live = false, locale = "en-US" } = props;
  const number = new Intl.NumberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    signDisplay: signed ? "exceptZero" : "auto",
  });
  return (
    <span
      className={classNames(
        "whitespace-nowrap font-mono tabular-nums",
        live && "text-live font-medium leading-none tracking-tight",
        props.className,
      )}
    >
      {value === null ? (
        <>
          <span aria-hidden="true">–</span>
          <span className="sr-only">{controlsWords.notKnown}</span>
        </>
      ) : (
        number.format(value).replace("-", "−")
      )}
      {/* A blank for those who hear it: without one, number and unit are one word. */}
      <span className="sr-only"> </span>
      <span
        className={classNames(
          "font-sans text-ink-soft",
          live ? "ml-3 text-title tracking-normal" : "ml-1 text-[0.85em]",
        )}
      >
        {unit}
      </span>
    </span>
  );
}
