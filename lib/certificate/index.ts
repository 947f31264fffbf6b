export {
  CERTIFICATE_FORM,
  type Certificate,
  digestGroups,
  type Fact,
  momentAt,
  type StepLine,
  writeCertificate,
} from "./certificate";
export { type Check, type CheckOutcome, judgePaper, type PaperFacts, type PaperVerdicts, paperVerdicts } from "./check";
export { checkTokenHash, newCheckToken, TOKEN_FORM } from "./check-token";
export { type CriteriaLine, listCriteria } from "./criteria-lines";
export type { Finding, Standing } from "./findings";
export type { InstrumentLine } from "./instruments";
export { SHOWS, SHOWS_NOT } from "./meaning";
export type { PersonLine } from "./people";
export type { CertificateSource } from "./source";
