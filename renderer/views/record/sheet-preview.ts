/** Elements that a record sheet is made of; nothing else of it gets onto the page. */
const allowed = new Set(
  (
    'main header section footer h1 h2 h3 p br span div table thead tbody tr th td ul li dl dt dd figure figcaption ' +
    'svg g path polyline polygon ellipse text image'
  ).split(' '),
);
const allowedAttributes = new Set(
  (
    'class scope tabindex role aria-label aria-hidden width height viewBox points fill stroke stroke-width ' +
    'stroke-dasharray cx cy rx ry x y font-size font-weight text-anchor preserveAspectRatio d'
  ).split(' '),
);

/** Pictures of the sheet as addresses that the page may show, and a way to let go of them. */
export interface SheetPreview {
  readonly root: DocumentFragment;
  readonly style: CSSStyleSheet;
  release(): void;
}

function blobOf(address: string): Blob | null {
  const found = /^data:(image\/(?:png|jpeg));base64,([A-Za-z0-9+/=]+)$/.exec(address);
  if (!found) return null;
  const text = atob(found[2]);
  return new Blob([Uint8Array.from(text, (sign) => sign.charCodeAt(0))], { type: found[1] });
}

/**
 * A copy of the sheet's page for the screen: only elements and attributes that a sheet has, no script, no style of theirs in
 * attributes, no address but those of its own pictures.
 */
export function previewOf(html: string): SheetPreview {
  // The page's own policy knows no style in a text: it is taken out before anything reads it as a page.
  const rules = /<style>([^<]*)<\/style>/.exec(html)?.[1] ?? '';
  const parsed = new DOMParser().parseFromString(html.replace(/<style>[^<]*<\/style>/, ''), 'text/html');
  const addresses: string[] = [];

  function copy(node: Node): Node | null {
    if (node.nodeType === Node.TEXT_NODE) return document.createTextNode(node.nodeValue ?? '');
    if (!(node instanceof Element) || !allowed.has(node.localName)) return null;
    // The page has its own main part.
    const made = document.createElementNS(node.namespaceURI, node.localName === 'main' ? 'div' : node.localName);
    for (const { name, value } of node.attributes) {
      if (allowedAttributes.has(name)) made.setAttribute(name, value);
      if (name !== 'href' || node.localName !== 'image') continue;
      const blob = blobOf(value);
      if (!blob) continue;
      const address = URL.createObjectURL(blob);
      addresses.push(address);
      made.setAttribute('href', address);
    }
    for (const child of node.childNodes) {
      const inner = copy(child);
      if (inner) made.append(inner);
    }
    return made;
  }

  const root = document.createDocumentFragment();
  const main = parsed.querySelector('main');
  const made = main && copy(main);
  if (made instanceof Element) made.classList.add('sheet');
  if (made) root.append(made);
  const style = new CSSStyleSheet();
  // Its letters are the page's own; what it says of the whole page is said of the paper.
  style.replaceSync(
    rules
      .replace(/@font-face\{[^}]*\}/g, '')
      .replace(/:root\{/g, ':host{')
      .replaceAll('main{', '.sheet{')
      .replace(/(^|\n)body\{/g, '$1:host{display:block;')
      .replaceAll('"Source Sans 3"', "'Source Sans 3 Variable'"),
  );
  return { root, style, release: () => addresses.forEach((address) => URL.revokeObjectURL(address)) };
}
