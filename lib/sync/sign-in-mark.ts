/*
 * Signing in and out happens on other pages than the tablet's. They leave a mark, so that a tablet page asks the server who is
 * there before it shows anything kept for the person before.
 */
const NAME = "dryhold signed in or out";

export function markSignInChange(): void {
  keep(String(Date.now()));
}

export function hasSignInChanged(): boolean {
  try {
    return localStorage.getItem(NAME) !== null;
  } catch {
    return false; // no storage at all: then nothing is kept here either
  }
}

export function settleSignInChange(): void {
  keep(null);
}

/** Calls back when another page of this browser signs in or out. */
export function watchSignInChange(page: Window, changed: () => void): () => void {
  const heard = (event: StorageEvent) => event.key === NAME && event.newValue !== null && changed();
  page.addEventListener("storage", heard);
  return () => page.removeEventListener("storage", heard);
}

function keep(value: string | null) {
  try {
    if (value === null) localStorage.removeItem(NAME);
    else localStorage.setItem(NAME, value);
  } catch {
    // see above
  }
}
