/**
 * Every function that may run with the owner's rights, and why it must: it is needed before a company is known,
 * or reaches the tables that hold what comes before one. A test holds this list equal to the catalogue.
 */
export const preTenantFunctions = [
  "gate.find_sign_in",
  "gate.find_person",
  "gate.set_password",
  "gate.take_guess",
  "gate.forgive_guesses",
  "gate.return_guess",
  "gate.open_session",
  "gate.check_session",
  "gate.list_sessions",
  "gate.end_session",
  "gate.end_all_sessions",
  "gate.memberships_of",
  "gate.former_memberships_of",
  "gate.invite",
  "gate.list_invitations",
  "gate.withdraw_invitation",
  "gate.find_invitation",
  "gate.accept_invitation",
  "gate.make_certificate_link",
  "gate.list_certificate_links",
  "gate.revoke_certificate_link",
  "gate.find_certificate_link",
  "gate.make_instrument_token",
  "gate.list_instrument_tokens",
  "gate.revoke_instrument_token",
  "gate.find_instrument_token",
] as const;

/** Tables without a tenant; the application has no right on any of them, only on the functions above. */
export const preTenantTables = [
  "gate.company",
  "gate.person",
  "gate.session",
  "gate.invitation",
  "gate.guess",
  "gate.certificate_link",
  "gate.instrument_token",
] as const;
