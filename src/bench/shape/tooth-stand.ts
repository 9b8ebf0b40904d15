import type { Blade } from '../schema/index.ts';

/** How each tooth stands beside its neighbours. */
export type ToothStand = {
  /** mm the tip stands over to one side, along z: turn about, or as a careless set leaves it */
  readonly set: number;
  /** mm the tip has been filed below the tooth circle */
  readonly low: number;
};

/** mm, and share of the gullet depth: the most that uneven filing takes off a tip (common practice, no source). */
const LOWEST = { mm: 1.2, share: 0.09 };

/**
 * Set over to alternate sides by half of what the kerf is wider than the plate. An even set is exact;
 * an uneven one leaves two teeth at the full set, so that a calliper over the teeth still finds the
 * kerf, and an uneven filing leaves every third tip, and more, on the tooth circle.
 */
export function toothStands(blade: Blade): ToothStand[] {
  const full = (blade.kerf - blade.plate) / 2;
  const { set, sharpness } = blade.condition;
  const deepest = Math.min(LOWEST.mm, LOWEST.share * blade.gulletDepth);
  return Array.from({ length: blade.teeth }, (_, i) => {
    const side = i % 2 === 0 ? -1 : 1;
    const careless = set === 'uneven' && i > 1;
    const wrongWay = draw(i, 1) < 0.14 ? -0.6 : 1;
    return {
      set: side * full * (careless ? wrongWay * (0.1 + 0.9 * draw(i, 2)) : 1),
      low: sharpness === 'uneven' && i % 3 !== 0 ? deepest * draw(i, 3) : 0,
    };
  });
}

/** 0 to 1, the same for the same tooth every time: whole-number arithmetic, alike on every machine. */
function draw(index: number, salt: number): number {
  let mixed = (index * 0x9e37 + salt * 0x85eb + 0x1b56) >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 7), 0x2c1b3c6d);
  mixed = Math.imul(mixed ^ (mixed >>> 12), 0x297a2d39);
  return ((mixed ^ (mixed >>> 15)) >>> 0) / 4294967296;
}
