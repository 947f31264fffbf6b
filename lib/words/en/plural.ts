const rules = new Intl.PluralRules("en");

/** The form English takes beside a count: it has one for exactly one and one for all others. */
export function counted(count: number, forms: { readonly one: string; readonly other: string }): string {
  return rules.select(count) === "one" ? forms.one : forms.other;
}
