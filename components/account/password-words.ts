import type { PasswordFailure } from "@/lib/auth/password-failure";

/** What to tell someone whose new password, or old one, was not taken. */
export function passwordProblem(failure: PasswordFailure): string {
  switch (failure.code) {
    case "wrong-password":
      return "This is not the present password.";
    case "wait":
      return `Too many wrong guesses. Wait ${failure.waitS} s.`;
    case "too-short":
      return "Too short: at least 10 characters.";
    case "too-long":
      return "Too long: at most 200 characters.";
    case "too-common":
      return "Too easy to guess. Take a few unrelated words.";
    case "not-repeated":
      return "The two new passwords differ.";
  }
}
