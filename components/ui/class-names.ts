/** Joins the class names that apply; falsy ones fall away. */
export function classNames(...names: readonly (string | false | null | undefined)[]): string {
  return names.filter(Boolean).join(" ");
}
