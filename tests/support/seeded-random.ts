/** Random numbers 0..1 that are the same in every run: a linear congruential generator (Numerical Recipes constants). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
