import { describe, expect, it } from 'vitest';
import { sheetPage } from '../../../core/node/sheet/html-file';
import { escaped } from '../../../core/sheet/html/escape';
import { sheetContent } from '../../../core/sheet/make-content';
import { plainPictures, textsOf } from '../../support/sheet-pictures';
import { larkfieldSource } from '../../support/sheet-source';

const hostile = `"><script>alert(1)</script><img src=x onerror='a'>&amp;`;
const source = larkfieldSource({
  name: hostile,
  notes: `${hostile}\nsecond line\u202e\u0000`,
  maker: 'https://example.invalid/a?b=<c>',
});
const content = sheetContent(source);
const page = sheetPage(content, plainPictures(content));

describe('sheetPage', () => {
  it('[RS13] has no script, no handler and fetches nothing', () => {
    expect(page).not.toMatch(/<script|<iframe|<object|<link|<base|@import|javascript:/i);
    expect(page).not.toMatch(/<[^>]*\son\w+\s*=/i);
    // Within elements and the style only: as text anything may stand there.
    const markup = (page.match(/<style>[\s\S]*<\/style>|<[^>]+>/g) ?? []).join('\n');
    const fetched = [...markup.matchAll(/(?:src|href|url)\s*[=(]\s*["']?([^"')\s>]+)/gi)].map(([, address]) => address);
    expect(fetched.length).toBeGreaterThan(12);
    expect(fetched.filter((address) => !address.startsWith('data:'))).toEqual([]);
    expect(page).toContain("default-src 'none'");
  });

  it('[RS13] every text stands on it, escaped', () => {
    for (const text of textsOf(content)) {
      const parts = text.includes('±') ? text.split(/ ?(?=±)/) : [text];
      for (const part of parts) if (part !== content.savedAt) expect(page).toContain(escaped(part));
    }
    expect(page).not.toContain(hostile);
    expect(page).toContain('second line\\u202e\\u0000');
  });

  it('[RS13] opens and closes its elements in pairs', () => {
    const open: string[] = [];
    for (const [, slash, name, rest] of page.replace(/<!doctype html>/, '').matchAll(/<(\/?)(\w+)([^>]*)>/g)) {
      if (rest.endsWith('/') || ['meta', 'br'].includes(name)) continue;
      if (slash === '') open.push(name);
      else expect(open.pop()).toBe(name);
    }
    expect(open).toEqual([]);
  });

  it('[RS13] is the same for the same record', () => {
    const again = sheetContent(source);
    expect(sheetPage(again, plainPictures(again))).toBe(page);
  });
});
