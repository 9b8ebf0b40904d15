import {
  adviseMove,
  type Bench,
  knifeEdgeExists,
  readBench,
  SETTINGS,
  withKnife,
} from '../bench/index.ts';
import { degreesToRadians } from '../geometry/index.ts';
import type { RackBlade, RackKnife } from './rack-schema.ts';

/** A blade as it comes from the rack: looked over, sharp and whole, or it would not hang there. */
const WHOLE: Bench['blade']['condition'] = {
  cracks: [],
  missingTeeth: [],
  gullets: 'rounded',
  sharpness: 'sharp',
  set: 'even',
  burnt: false,
  marked: true,
};

/** mm from the teeth at the table that a knife is set to when it is fitted. Common practice, no source. */
const USUAL_GAP = 5;
/** mm the tip of the knife is left below the top of the blade, where the knife is long enough. */
const USUAL_DROP = 2;

/**
 * The bench with another blade on it, raised so that its gullets clear the stock (common practice,
 * no source), or for a cut that does not go through left as high as it stood. No knife yet.
 * @returns null when this bench cannot raise that blade through the stock
 */
export function mountBlade(bench: Bench, blade: RackBlade): Bench | null {
  const { id: _id, title: _title, gauge: _gauge, ...marks } = blade;
  const { cut, stock } = bench.job;
  const standing = cut === 'rebate' || cut === 'groove';
  const height = stock.thickness / Math.cos(degreesToRadians(bench.arbor.tilt)) + blade.gulletDepth;
  const was = bench.blade.diameter / 2 - bench.arbor.depth;
  const depth = blade.diameter / 2 - (standing ? was : height);
  if (depth < SETTINGS['arbor.depth'].least) return null;
  const mounted = readBench({
    ...bench,
    blade: { ...marks, condition: WHOLE },
    arbor: { ...bench.arbor, depth },
    knife: null,
  });
  return mounted.ok ? mounted.bench : null;
}

/**
 * A knife from the rack fitted to a mounted blade and slid to its usual place.
 * @returns null when it cannot stand behind that blade
 */
export function fitKnife(mounted: Bench, knife: RackKnife): Bench | null {
  const { id: _id, title: _title, ...shape } = knife;
  const { depth } = mounted.arbor;
  const highest = mounted.blade.diameter / 2 - depth - USUAL_DROP;
  const up = Math.min(0, highest + depth - knife.reach);
  const loose = {
    ...shape,
    along: Math.max(0, mounted.blade.diameter / 2 + USUAL_GAP - knife.edgeRadius),
    up,
    lateral: 0,
    play: 0,
    carriedBy: 'arbor' as const,
  };
  if (!knifeEdgeExists(loose, depth)) return null;
  const fitted = withKnife(mounted, loose);
  if (fitted === null) return null;
  const move = adviseMove(fitted, 'knife.gapAtTable', 'knife.along', USUAL_GAP);
  return move === null ? fitted : withKnife(fitted, { ...loose, along: move.to });
}
