import { askedWrongly } from './book-errors';
import type { SchemaNode } from './record-schema';

const decimal = /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;
const yes = ['true', 'yes'];
const no = ['false', 'no'];

function notThis(place: string, text: string, wanted: string): Error {
  const message = `${place}: ${JSON.stringify(text)} is not ${wanted}`;
  return askedWrongly('VALUE_INVALID', message, `Give ${wanted}; an empty value takes the field away.`);
}

function numberOf(text: string, place: string): number {
  const value = decimal.test(text.trim()) ? Number(text) : NaN;
  if (!Number.isFinite(value)) throw notThis(place, text, 'a number');
  return value;
}

function jsonOf(text: string, place: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw notThis(place, text, 'JSON');
  }
}

const isPair = (node: SchemaNode): boolean => node.prefixItems !== undefined;

/** `23,9,8`, `10,10 90,10 90,80` (points), `left, right` (names), or JSON. */
function listOf(text: string, node: SchemaNode, place: string): unknown {
  if (text.trimStart().startsWith('[')) return jsonOf(text, place);
  const numbers = (given: string): number[] => given.split(',').map((part) => numberOf(part, place));
  if (isPair(node)) return numbers(text);
  const items = node.items;
  if (items !== undefined && items !== false && isPair(items)) return text.trim().split(/\s+/).map(numbers);
  if (items !== undefined && items !== false && items.type === 'string')
    return text.split(',').map((one) => one.trim());
  throw notThis(place, text, 'a list in [ ]');
}

/**
 * What a person typed for a field, as the field's schema wants it. Whether the value is allowed is judged by the record's
 * validator afterwards.
 *
 * @param place  the field, for messages
 * @throws AppError VALUE_INVALID
 * @rule BK12
 */
export function readFieldValue(text: string, node: SchemaNode, place: string): unknown {
  if (node.type === 'number' || node.type === 'integer') return numberOf(text, place);
  if (node.type === 'boolean') {
    const word = text.trim().toLowerCase();
    if (![...yes, ...no].includes(word)) throw notThis(place, text, 'yes or no');
    return yes.includes(word);
  }
  if (node.type === 'array') return listOf(text, node, place);
  if (node.type === 'string') return text;
  // An object, or one of several kinds of it.
  return jsonOf(text, place);
}
