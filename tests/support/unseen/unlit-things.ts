import type { Drawing } from '../drawn-photo';
import { type Box, type Dice, freePlace, heightPx, widthPx } from './dice';

/** What is not lit but there: knobs, keys, paper, signal lamps, a lamp's light on the panel, a table. Times the room's light. */
export function unlitThings(d: Dice, taken: Box[], room: number): Drawing {
  const things: ((x: number, y: number) => number | null)[] = [];
  for (let i = d.upTo(3); i > 0; i--) {
    const size = d.between(40, 100);
    const box = freePlace(d, taken, size, size, 6);
    if (!box) continue;
    taken.push(box);
    const [shine, streak] = [d.between(0.3, 2.2), d.between(1, 4)];
    things.push((x, y) => {
      const [u, v] = [(2 * (x - box[0])) / size - 1, (2 * (y - box[1])) / size - 1];
      if (u * u + v * v > 1) return null;
      return Math.abs(u - v) < 0.25 ? shine * streak : shine;
    });
  }
  if (d.chance(0.4)) {
    const [count, wide, high] = [3 + d.upTo(4), d.between(16, 34), d.between(12, 28)];
    const box = freePlace(d, taken, count * wide * 1.4, high, 6);
    if (box) taken.push(box);
    const shine = d.between(0.5, 3);
    things.push((x, y) => {
      if (!box || y < box[1] || y > box[1] + high || x < box[0] || x > box[0] + box[2]) return null;
      return (x - box[0]) % (wide * 1.4) < wide ? shine : null;
    });
  }
  if (d.chance(0.3)) {
    const box = freePlace(d, taken, d.between(90, 240), d.between(70, 160), 8);
    if (box) taken.push(box);
    const shine = d.between(1.3, 1.8);
    things.push((x, y) =>
      box && x > box[0] && x < box[0] + box[2] && y > box[1] && y < box[1] + box[3] ? shine : null,
    );
  }
  const lamps = Array.from({ length: d.upTo(3) }, () => [d.between(10, 710), d.between(10, 470), d.between(2, 5)]);
  const [softX, softY, softPx] = [d.between(0, widthPx), d.between(0, heightPx), d.between(50, 160)];
  const soft = d.chance(0.4) ? d.between(0.5, 2) : 0;
  const tableRow = d.chance(0.3) ? d.between(462, 476) : heightPx + 1;
  const table = d.between(1.5, 4);
  const slope = d.between(-0.3, 0.3);
  const grain = d.between(0, 0.2);
  return (x, y) => {
    const thing = things.map((one) => one(x, y)).find((one) => one !== null) ?? (y > tableRow ? table : 1);
    const brushed = 1 + grain * Math.sin(y * 2.3 + Math.sin(y * 0.37) * 5);
    const light = soft * Math.exp(-((x - softX) ** 2 + (y - softY) ** 2) / (2 * softPx ** 2));
    const level = room * (thing + light) * brushed * (1 + slope * (x / widthPx - 0.5));
    const lamp = lamps.some(([u, v, r]) => (x - u) ** 2 + (y - v) ** 2 < r * r) ? 0.8 : 0;
    return [level + lamp, 0.95 * level + 0.2 * lamp, 0.9 * level + 0.1 * lamp];
  };
}
