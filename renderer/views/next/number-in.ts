/** The number of a text within limits; null when it is none. */
export function numberIn(text: string, [from, to]: readonly [number, number]): number | null {
  const value = Number(text.trim().replace(',', '.'));
  return text.trim() !== '' && value >= from && value <= to ? value : null;
}
