import Link from "next/link";
import type { ComponentProps, ReactNode } from "react";
import { classNames } from "./class-names";
import { StateShape } from "./state-mark";

export type ButtonKind = "action" | "quiet" | "plain" | "danger";
type Look = { kind?: ButtonKind; place?: "office" | "tablet"; icon?: ReactNode; wide?: boolean };

const lookOf: Record<ButtonKind, string> = {
  action: "border-transparent bg-action text-on-action hover:bg-action-strong hover:text-on-action",
  quiet: "border-edge bg-raised text-ink hover:bg-sunk hover:text-ink",
  plain: "border-transparent bg-transparent text-action underline-offset-4 hover:bg-sunk hover:underline",
  danger: "border-refused bg-raised text-refused hover:bg-refused-wash hover:text-refused",
};

function buttonClass({ kind = "quiet", wide }: Look, className?: string) {
  return classNames(
    "inline-flex min-h-(--control) items-center justify-center gap-2 rounded-control border px-[max(0.75rem,calc(var(--control)/3))] py-1",
    "text-body font-semibold leading-tight no-underline transition-colors duration-150",
    "disabled:border-hairline disabled:bg-sunk disabled:text-ink-soft aria-disabled:border-hairline aria-disabled:bg-sunk aria-disabled:text-ink-soft",
    wide && "w-full",
    lookOf[kind],
    className,
  );
}

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
