/**
 * First seed of a run of random days: always the same, so that a run says something of the change and not of its luck; PROPERTY_SEED takes
 * another, or `any` for a fresh one. Printed, and named in every message.
 */
export function firstSeed(): number {
  const given = process.env.PROPERTY_SEED;
  const seed = given === "any" ? Math.floor(Math.random() * 1e9) : Number(given ?? 1);
  if (!(Number.isInteger(seed) && seed >= 0))
    throw new Error(`PROPERTY_SEED takes a whole number or "any", not ${given}`);
  console.log(`Random days from seed ${seed}; others with PROPERTY_SEED=any`);
  return seed;
}
