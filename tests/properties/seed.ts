/**
 * First seed of a run of random days: another one each time, or the one in PROPERTY_SEED to see a failure again. Printed, and named in
 * every message.
 */
export function firstSeed(): number {
  const given = Number(process.env.PROPERTY_SEED);
  const seed = Number.isInteger(given) && given > 0 ? given : Math.floor(Math.random() * 1e9);
  console.log(`Random days from seed ${seed}; the same again with PROPERTY_SEED=${seed}`);
  return seed;
}
