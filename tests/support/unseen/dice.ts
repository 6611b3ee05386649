import { seededRandom } from '../seeded-random';

/** Size of the photos, px. */
export const [widthPx, heightPx] = [720, 480];

/** Random choices of one scene: between two bounds, evenly or evenly in the logarithm, yes or no, one of a list. */
export function dice(seed: number) {
  const random = seededRandom(Math.imul(seed + 1, 0x9e3779b1));
  for (let i = 0; i < 5; i++) random();
  return {
    between: (least: number, most: number) => least + (most - least) * random(),
    logBetween: (least: number, most: number) => least * (most / least) ** random(),
    chance: (share: number) => random() < share,
    oneOf: <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)],
    upTo: (most: number) => Math.floor(random() * (most + 1)),
  };
}
export type Dice = ReturnType<typeof dice>;

/** A place for something of a size, clear of what is there already by `gap` and of the frame by 3 %. */
export type Box = readonly [left: number, top: number, width: number, height: number];
export function freePlace(d: Dice, taken: readonly Box[], width: number, height: number, gap: number): Box | null {
  for (let tries = 0; tries < 60; tries++) {
    const box: Box = [d.between(22, widthPx - 22 - width), d.between(22, heightPx - 22 - height), width, height];
    if (box[0] < 22 || box[1] < 22) continue;
    const isFree = taken.every(
      ([x, y, w, h]) =>
        x > box[0] + width + gap || box[0] > x + w + gap || y > box[1] + height + gap || box[1] > y + h + gap,
    );
    if (isFree) return box;
  }
  return null;
}
