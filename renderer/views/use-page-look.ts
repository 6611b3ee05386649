import { useEffect, useState } from 'preact/hooks';

const attributes = ['data-theme', 'data-surround'];

const lookNow = (): string => attributes.map((name) => document.documentElement.getAttribute(name)).join(' ');

/** Changes with theme and surround, for what is drawn on a canvas: that keeps the colours that it was drawn with. */
export function usePageLook(): string {
  const [look, setLook] = useState(lookNow);
  useEffect(() => {
    const observer = new MutationObserver(() => setLook(lookNow()));
    observer.observe(document.documentElement, { attributeFilter: attributes });
    return () => observer.disconnect();
  }, []);
  return look;
}
