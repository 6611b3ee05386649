import { useEffect, useState } from 'preact/hooks';

/**
 * What stands in an input, and a setter for it: what is kept of the field takes its place whenever that changes, but for a text
 * that was refused, which stays to be corrected.
 */
export function useTyped(kept: string, isRefused: boolean): readonly [string, (typed: string) => void] {
  const [text, setText] = useState(kept);
  useEffect(() => {
    if (!isRefused) setText(kept);
  }, [kept, isRefused]);
  return [text, setText];
}
