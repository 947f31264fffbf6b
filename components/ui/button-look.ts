import type { ReactNode } from "react";
import { classNames } from "./class-names";

export type ButtonKind = "action" | "quiet" | "plain" | "danger";
export type ButtonLook = { kind?: ButtonKind; place?: "office" | "tablet"; icon?: ReactNode; wide?: boolean };

const lookOf: Record<ButtonKind, string> = {
  action: "border-transparent bg-action text-on-action hover:bg-action-strong hover:text-on-action",
  quiet: "border-edge bg-raised text-ink hover:bg-sunk hover:text-ink",
  plain: "border-transparent bg-transparent text-action underline-offset-4 hover:bg-sunk hover:underline",
  danger: "border-refused bg-raised text-refused hover:bg-refused-wash hover:text-refused",
};

export function buttonClass({ kind = "quiet", wide }: ButtonLook, className?: string) {
  return classNames(
    "inline-flex min-h-(--control) items-center justify-center gap-2 rounded-control border px-[max(0.75rem,calc(var(--control)/3))] py-1",
    "text-body font-semibold leading-tight no-underline transition-colors duration-150",
    "disabled:border-hairline disabled:bg-sunk disabled:text-ink-soft aria-disabled:border-hairline aria-disabled:bg-sunk aria-disabled:text-ink-soft",
    wide && "w-full",
    lookOf[kind],
    className,
  );
}
