import { randomInt } from 'node:crypto';

/** Letters and digits that nobody takes for one another. */
const signs = '23456789abcdefghjkmnpqrstuvwxyz';

/** A new id: what the unit is called in plain letters, and six random signs. `Larkfield T-60` gives `larkfield-t-60-k7x2m9`. */
export function newUnitId(name: string): string {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
    .replace(/-+$/, '');
  const random = Array.from({ length: 6 }, () => signs[randomInt(signs.length)]).join('');
  return `${plain === '' ? 'unit' : plain}-${random}`;
}
