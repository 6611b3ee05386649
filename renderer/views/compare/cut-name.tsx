import type { JSX } from 'preact';

/** A name that is cut at its beginning when it is too long: photos of an evening differ at their ends. */
export function CutName({ name }: { readonly name: string }): JSX.Element {
  return (
    <span class="cut-name">
      <bdi dir="ltr">{name}</bdi>
    </span>
  );
}
