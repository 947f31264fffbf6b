import type { ComponentProps } from "react";
import { buttonClass, type ButtonLook as Look } from "./button-look";
import { Link } from "./link";
import { StateShape } from "./state-mark";

export type ButtonProps = Look & { pending?: boolean; pendingWord?: string } & ComponentProps<"button">;

/** A verb to press. While pending it keeps its place and its focus, says so, and does nothing when pressed again. */
export function Button(props: ButtonProps) {
  const { kind, place, icon, wide, pending = false, pendingWord, className, children, onClick, ...rest } = props;
  return (
    <button
      type="button"
      {...rest}
      data-place={place}
      className={buttonClass({ ...(kind && { kind }), ...(wide && { wide }) }, className)}
      aria-disabled={pending || undefined}
      onClick={pending ? (event) => event.preventDefault() : onClick}
    >
      {pending ? <StateShape state="working" /> : icon}
      <span>{pending && pendingWord ? pendingWord : children}</span>
    </button>
  );
}

/** The look of a button for what is really a way to another page. */
export function LinkButton(props: Look & ComponentProps<typeof Link>) {
  const { kind, place, icon, wide, className, children, ...rest } = props;
  return (
    <Link
      {...rest}
      data-place={place}
      className={buttonClass({ ...(kind && { kind }), ...(wide && { wide }) }, className)}
    >
      {icon}
      <span>{children}</span>
    </Link>
  );
}
