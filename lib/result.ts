/** The outcome of something that may fail in an expected way; bugs are exceptions instead. */
export type Result<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

export function ok<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}

export function err<const E>(error: E): { readonly ok: false; readonly error: E } {
  return { ok: false, error };
}
