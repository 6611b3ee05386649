import type { JSX } from 'preact';

/** Signs at the end of a name that are kept: where `-16-mm.jpg` differs from `-28-mm.jpg`. */
const keptAtEnd = 14;

/** A name that is cut in its middle when it is too long: photos of an evening differ at their ends. */
export function CutName({ name }: { readonly name: string }): JSX.Element {
  const at = Math.max(0, name.length - keptAtEnd);
  return (
    <span class="cut-name">
      <span class="start">{name.slice(0, at)}</span>
      <span class="end">{name.slice(at)}</span>
    </span>
  );
}
