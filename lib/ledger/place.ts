/**
 * Where refrigerant can be. `before` is what was there when the books began, `unnamed` a cylinder nobody identified, `loss` the air;
 * cylinders and circuits have an id, the others are one place each.
 */
export const PLACE_KINDS = [
  "before",
  "supplier",
  "cylinder",
  "circuit",
  "unnamed",
  "reclaimer",
  "destroyed",
  "loss",
] as const;
export type PlaceKind = (typeof PLACE_KINDS)[number];

export type Place =
  | { readonly kind: "cylinder" | "circuit"; readonly id: string }
  | { readonly kind: Exclude<PlaceKind, "cylinder" | "circuit"> };

export const cylinder = (id: string): Place => ({ kind: "cylinder", id });
export const circuit = (id: string): Place => ({ kind: "circuit", id });

export function idOf(place: Place): string | null {
  return "id" in place ? place.id : null;
}

export function placeKey(place: Place): string {
  return "id" in place ? `${place.kind}:${place.id}` : place.kind;
}

export function samePlace(one: Place, other: Place): boolean {
  return placeKey(one) === placeKey(other);
}
