import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Bench } from '../state/bench';

export const BenchContext = createContext<Bench | null>(null);

/** The bench of the page; a component outside it is a defect. */
export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (bench === null) throw new Error('no bench around this component');
  return bench;
}
