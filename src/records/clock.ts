// Apart from the schemas: workers read times of day and must not carry what checks records.

/** Minutes after midnight of a `clock` text. */
export const minuteOfClock = (clockText: string): number =>
  Number(clockText.slice(0, 2)) * 60 + Number(clockText.slice(3, 5));
/** The `clock` text of minutes after midnight, folded into one day. */
export const clockOfMinute = (minute: number): string => {
  const folded = ((Math.round(minute) % 1440) + 1440) % 1440;
  return `${String(Math.floor(folded / 60)).padStart(2, "0")}:${String(folded % 60).padStart(2, "0")}`;
};
