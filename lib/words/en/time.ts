/** Moments and lengths of time. */
export const timeWords = {
  now: "now",
  today: "today",
  tomorrow: "tomorrow",
  in: (length: string) => `in ${length}`,
  ago: (length: string) => `${length} ago`,
  days: (days: number) => `${days} days`,
};
