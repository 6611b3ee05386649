import type { RankedGroups } from '../contract/comparison';

/**
 * Puts trials in order, those that cannot be told apart together: the best opens a group, each next one joins it unless it is told
 * apart from that group's best, and then opens a group of its own.
 *
 * @param trials    in any order; equal ones keep it
 * @param order     negative when the first is the better one, as for Array.sort
 * @param toldApart of the group's best and another
 * @returns names, best group first; empty for no trials
 * @source our own choice: nobody is placed before another without evidence
 * @rule PR3
 */
export function rankedGroups<T extends { readonly name: string }>(
  trials: readonly T[],
  order: (a: T, b: T) => number,
  toldApart: (best: T, other: T) => boolean,
): RankedGroups {
  const groups: { readonly best: T; readonly names: string[] }[] = [];
  for (const trial of [...trials].sort(order)) {
    const last = groups.at(-1);
    if (last && !toldApart(last.best, trial)) last.names.push(trial.name);
    else groups.push({ best: trial, names: [trial.name] });
  }
  return groups.map(({ names }) => names);
}
