import { printable } from '../../display/figure-text';
import { usageError } from './arguments';

/** Where a text stops being JSON. */
export interface JsonMistake {
  readonly line: number;
  /** What stands there, as a person would quote it. */
  readonly found: string;
  readonly expected: string;
}

// JSON's own words (RFC 8259): strings, numbers and names whole; any other sign by itself.
const word =
  /"(?:[ !#-[\]-\uffff]|\\(?:["\\/bfnrt]|u[0-9a-f]{4}))*"|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:e[+-]?\d+)?(?![\w.])|[\w.+-]+|\S/giy;
const simpleValue = /^(?:".+"|""|-?\d.*|true|false|null)$/s;

interface Place {
  readonly text: string;
  readonly at: number;
}

function wordsOf(text: string): Place[] {
  const found: Place[] = [];
  for (let at = 0; at < text.length;) {
    if (/[ \t\r\n]/.test(text[at])) {
      at++;
      continue;
    }
    word.lastIndex = at;
    const next = word.exec(text)?.[0] ?? text[at];
    found.push({ text: next, at });
    at += next.length;
  }
  return found;
}

function isNumber(text: string): boolean {
  return /^-?(?:0|[1-9]\d*)(?:\.\d+)?(?:e[+-]?\d+)?$/i.test(text);
}

function isValue(text: string): boolean {
  return simpleValue.test(text) && (!/^[-\d]/.test(text) || isNumber(text));
}

type Wish = 'value' | 'value or ]' | 'key' | 'key or }' | ':' | ', or ]' | ', or }' | 'the end';

const endOfFile = 'the end of the file';

const wishWords: Readonly<Record<Wish, string>> = {
  value: 'a value',
  'value or ]': 'a value or ]',
  key: 'a name in quotation marks',
  'key or }': 'a name in quotation marks, or }',
  ':': 'a colon',
  ', or ]': 'a comma or ]',
  ', or }': 'a comma or }',
  'the end': endOfFile,
};

/** What may follow a finished value. */
function afterValue(open: readonly string[]): Wish {
  const last = open.at(-1);
  return last === undefined ? 'the end' : last === '{' ? ', or }' : ', or ]';
}

/** The next wish after a word; null when the word does not fit. `open` is changed: brackets open and close. */
function wishAfter(wish: Wish, text: string, open: string[]): Wish | null {
  const closes =
    (wish === 'value or ]' || wish === ', or ]') && text === ']'
      ? true
      : (wish === 'key or }' || wish === ', or }') && text === '}';
  if (closes) {
    open.pop();
    return afterValue(open);
  }
  if (wish === 'value' || wish === 'value or ]') {
    if (text === '{' || text === '[') {
      open.push(text);
      return text === '{' ? 'key or }' : 'value or ]';
    }
    return isValue(text) ? afterValue(open) : null;
  }
  if (wish === 'key' || wish === 'key or }') return /^".*"$/s.test(text) && text.length > 1 ? ':' : null;
  if (wish === ':') return text === ':' ? 'value' : null;
  if (text !== ',') return null;
  return wish === ', or }' ? 'key' : wish === ', or ]' ? 'value' : null;
}

/** The first place where a text is no JSON any more, or null. @source RFC 8259 @rule CL17 */
export function jsonMistake(text: string): JsonMistake | null {
  const open: string[] = [];
  const lineAt = (at: number): number => text.slice(0, at).split('\n').length;
  let wish: Wish = 'value';
  for (const { text: found, at } of wordsOf(text)) {
    const next = wishAfter(wish, found, open);
    if (next === null) return { line: lineAt(at), found: printable(found.slice(0, 40)), expected: wishWords[wish] };
    wish = next;
  }
  if (wish === 'the end') return null;
  return { line: lineAt(text.trimEnd().length), found: endOfFile, expected: wishWords[wish] };
}

/**
 * Refuses a series file that is no JSON, with the line and what was found there.
 *
 * @throws AppError SERIES_NOT_JSON
 * @rule CL17
 */
export function assertJson(text: string, called: string): void {
  const mistake = jsonMistake(text.replace(/^\uFEFF/, ''));
  if (mistake === null) return;
  const { line, found, expected } = mistake;
  const what = found === endOfFile ? 'the file ends' : `found ${found}`;
  const message = `${called} is not JSON: line ${line}: ${what} where ${expected} should be`;
  const remedy = 'Correct that line or the one before it: often a comma or a quotation mark is missing or too many.';
  throw usageError(message, remedy, 'SERIES_NOT_JSON');
}
