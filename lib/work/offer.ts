/** A window that can be promised while somebody is still on the phone. */
export interface WindowOffer {
  readonly day: string;
  /** Clock times at the site, as a form takes them. */
  readonly from: string;
  readonly to: string;
  /** "Mon 30 Nov, 08:00 to 10:00" and who would come. */
  readonly words: string;
  readonly detail: string;
  readonly personId: string;
}
