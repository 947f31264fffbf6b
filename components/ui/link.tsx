import NextLink from "next/link";
import type { ComponentProps } from "react";

/**
 * A way to another page, fetched when it is followed. Next would fetch every link in sight ahead, a request or two each: forty for
 * one look at the board, and again after every change.
 */
export function Link(props: ComponentProps<typeof NextLink>) {
  return <NextLink prefetch={false} {...props} />;
}
