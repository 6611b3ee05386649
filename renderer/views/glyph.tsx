import type { JSX } from 'preact';

export type GlyphKind = 'note' | 'warn' | 'refuse' | 'pass';

const shapes: Readonly<Record<GlyphKind, JSX.Element>> = {
  note: <circle cx="7" cy="7" r="5.2" fill="none" stroke="currentColor" stroke-width="1.6" />,
  warn: <path d="M7 1.5 13 12.5H1Z M7 5.5v3.4 M7 10.2v1" fill="none" stroke="currentColor" stroke-width="1.5" />,
  refuse: <path d="M1 1h12v12H1Z M3.4 6h7.2v2H3.4Z" fill="currentColor" fill-rule="evenodd" />,
  pass: <path d="M2 7.5 5.5 11 12 3" fill="none" stroke="currentColor" stroke-width="1.8" />,
};

const words: Readonly<Record<GlyphKind, string>> = {
  note: 'Note',
  warn: 'Warning',
  refuse: 'Refused',
  pass: 'Passed',
};

/** A state by its shape; its colour comes second. */
export function Glyph({ kind }: { readonly kind: GlyphKind }): JSX.Element {
  return (
    <svg class={`glyph ${kind}`} viewBox="0 0 14 14" role="img" aria-label={words[kind]}>
      {shapes[kind]}
    </svg>
  );
}
