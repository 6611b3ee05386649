/** Results in the order of the items, with no more than `limit` under way at a time. */
export async function mapLimited<T, R>(
  items: readonly T[],
  limit: number,
  act: (item: T, index: number) => Promise<R>,
): Promise<R[]> {
  const results = new Array<R>(items.length);
  let next = 0;
  const work = async (): Promise<void> => {
    for (let i = next++; i < items.length; i = next++) results[i] = await act(items[i], i);
  };
  await Promise.all(Array.from({ length: Math.min(limit, items.length) }, work));
  return results;
}
