/** Why a password was not changed or set. */
export type PasswordFailure =
  | { code: "wrong-password" | "too-short" | "too-long" | "too-common" | "not-repeated" }
  | { code: "wait"; waitS: number };
