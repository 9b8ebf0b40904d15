import { leavesFor } from '../../bench/index.ts';
import { add, cross, scale, subtract, unit, type Vec } from '../shape/solid.ts';
import { bar } from '../shape/turned.ts';
import { COLOURS } from '../surface/colours.ts';
import { type Made, makeTool, slab } from './made.ts';

const LEAF = { length: 104, breadth: 12.7, into: 9 };

/**
 * Feeler leaves in the gap, as thick together as they read, fanned out a little at the holder.
 * @param reading mm; null when no leaf goes in, and then the thinnest is held at the mouth of the gap
 */
export function makeFeeler(from: Vec, to: Vec, hand: Vec, reading: number | null): Made {
  const made = makeTool();
  const across = unit(subtract(to, from));
  const breadth = unit(cross(across, hand));
  const leaves = leavesFor(reading ?? 0.05);
  const count = leaves.length;
  const total = leaves.reduce((sum, leaf) => sum + leaf, 0);
  let lies = 0;
  const enters = reading === null ? -4 : LEAF.into;
  const start = add(from, scale(hand, -enters));
  for (const [i, leaf] of leaves.entries()) {
    const base = add(start, add(scale(across, lies), scale(breadth, -LEAF.breadth / 2)));
    lies += leaf;
    // leaves part toward the hand
    const spread = scale(across, (i - (count - 1) / 2) * 1.1);
    const end = add(add(base, scale(hand, LEAF.length)), spread);
    made.pieces.push({
      surface: 'steel',
      colour: i % 2 === 0 ? COLOURS.brightSteel : COLOURS.groundSteel,
      solid: slab(base, end, scale(breadth, LEAF.breadth), scale(across, leaf * 0.98)),
    });
  }
  const heel = add(start, add(scale(hand, LEAF.length - 22), scale(across, total / 2)));
  const cheek = (offset: number) =>
    slab(
      add(heel, add(scale(across, offset), scale(breadth, -LEAF.breadth / 2 - 1.4))),
      add(
        heel,
        add(scale(across, offset), add(scale(hand, 92), scale(breadth, -LEAF.breadth / 2 - 1.4))),
      ),
      scale(breadth, LEAF.breadth + 2.8),
      scale(across, 1.3),
    );
  const half = total / 2 + count * 0.55;
  for (const offset of [-half - 1.6, half + 0.3]) {
    made.pieces.push({ surface: 'steel', colour: COLOURS.blackSteel, solid: cheek(offset) });
  }
  const pin = add(heel, scale(hand, 12));
  made.pieces.push({
    surface: 'steel',
    colour: COLOURS.brass,
    solid: bar(add(pin, scale(across, -half - 3)), add(pin, scale(across, half + 3)), 4.2, 16),
  });
  return made;
}
