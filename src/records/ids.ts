/** Ids that two phones write alike for the same thing, so that it never doubles. */
export const skyId = (yardId: string, date: string): string => `${yardId}/${date}`;
/** The n-th shift of a vehicle on a day, from 1. */
export const shiftId = (vehicleId: string, date: string, n = 1): string => `${vehicleId}/${date}/${n}`;
export const entryId = (vehicleId: string, date: string, n = 1): string => `${vehicleId}/${date}/${n}`;
export const forecastId = (vehicleId: string, date: string): string => `${vehicleId}/${date}`;
export const careId = (vehicleId: string, date: string, what: string): string => `${vehicleId}/${date}/${what}`;
/** The plan of a yard for the night that begins on a day. */
export const nightId = (yardId: string, date: string): string => `${yardId}/${date}`;
export const readingId = (vehicleId: string, atUtcMs: number): string => `${vehicleId}/${atUtcMs}`;

/** A short id of 10 letters and digits for a new yard, socket, vehicle or round; `random` gives numbers in [0, 1). */
export const newId = (random: () => number): string =>
  Array.from({ length: 10 }, () => Math.floor(random() * 36).toString(36)).join("");
