import * as z from "zod";

export const paperWords = {
  purchase: "Bought",
  return: "Returned",
  shipment: "Shipped to a reclaimer",
  reclaimed: "Back reclaimed",
  destruction: "Sent to destruction",
  disposal: "Appliance given up",
} as const;
export type PaperKind = keyof typeof paperWords;

export interface PaperQuery {
  readonly kind: PaperKind | null;
  readonly from: string;
  readonly to: string;
  readonly skip: number;
}

const day = z.iso.date();

/** Which papers an address asks for; unsaid or unreadable: the last three years to the end of today. */
export function readPaperQuery(
  asked: Readonly<Record<string, string | string[] | undefined>>,
  today: string,
): PaperQuery {
  const dayOr = (value: unknown, other: string) => day.safeParse(value).data ?? other;
  const { kind } = asked;
  return {
    kind: typeof kind === "string" && Object.hasOwn(paperWords, kind) ? (kind as PaperKind) : null,
    from: dayOr(asked.from, `${Number(today.slice(0, 4)) - 3}${today.slice(4).replace("-02-29", "-02-28")}`),
    to: dayOr(asked.to, today),
    skip: Math.max(0, Math.min(1_000_000, Math.trunc(Number(asked.skip)) || 0)),
  };
}
