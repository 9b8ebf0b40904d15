import { COURSES } from './courses.ts';
import { frontTeeth } from './front-teeth.ts';
import type { LookAlike } from './spoiler.ts';
import { harmless, insideLimit } from './ways.ts';

/** What makes a beginner cry wolf: just inside a limit, or odd to look at and in order. */
export const LOOK_ALIKES: readonly LookAlike[] = [
  harmless('scratched-plate', 'cracked-gullet', 'plate', (bench, random) => ({
    blade: {
      condition: {
        scratches: [{ length: random.step(15, 60, 5), tooth: random.pick(frontTeeth(bench)) }],
      },
    },
  })),
  harmless('stained-table', 'table-unsound', 'table', () => ({ table: { stained: true } })),
  harmless('scuffed-guard', 'guard-damaged', 'guard', () => ({ guard: { scuffed: true } })),
  harmless('tight-knots', 'loose-knots', 'stock', () => ({ job: { stock: { tightKnots: true } } })),
  harmless('dusty-floor', 'litter', 'floor', () => ({ place: { dusty: true } })),
  harmless('visor-worn', 'no-eye-protection', 'eyes', () => ({
    people: { operator: { eyes: 'face-shield' } },
  })),
  harmless('plugs-worn', 'no-ear-protection', 'ears', () => ({
    people: { operator: { ears: 'plugs' } },
  })),
  harmless('rolled-sleeves', 'loose-sleeves', 'sleeves', () => ({
    people: { operator: { sleeves: 'rolled' } },
  })),
  harmless('long-hair-tied', 'loose-hair', 'hair', () => ({
    people: { operator: { hair: 'tied' } },
  })),
  harmless('bystander-aside', 'bystander-in-line', 'bystander', (_bench, random) => ({
    people: { bystander: { x: -random.step(2000, 3500, 100), z: -random.step(700, 1500, 100) } },
  })),
  harmless('locked-off-key-kept', 'key-left-in-lock', 'isolator', () => ({
    controls: { isolated: true, lockKey: 'with-person' },
  })),
  harmless('stock-stacked', 'stock-leaning', 'storage', () => ({
    place: { storage: { stock: 'stacked' } },
  })),
  harmless('hood-below', 'under-guard-open', 'under', () => ({ underGuard: 'extraction-hood' })),
  harmless('fence-opens', 'fence-closing', 'fence', (_bench, random) => ({
    fence: { toe: random.step(0.1, 0.3, 0.1) },
  })),
  harmless('insert-a-shade-low', 'insert-low', 'insert', (_bench, random) => ({
    insert: { step: -random.step(0.2, 0.4, 0.1) },
  })),
  insideLimit('knife-just-near-enough', 'knife-too-far', 'knife', COURSES.knifeFar),
  insideLimit('knife-just-thin-enough', 'knife-too-thick', 'knife', COURSES.knifeThick),
  insideLimit('guard-just-low-enough', 'guard-too-high', 'guard', COURSES.guardHigh),
  insideLimit('guard-just-forward-enough', 'guard-short-front', 'guard', COURSES.guardBack),
  insideLimit('guard-just-back-enough', 'guard-short-rear', 'guard', COURSES.guardForward),
  insideLimit('fence-just-short-enough', 'fence-past-gullets', 'fence-end', COURSES.fenceLong),
  insideLimit('insert-just-narrow-enough', 'wide-insert', 'insert', COURSES.insertWide),
  insideLimit('insert-a-shade-proud', 'insert-proud', 'insert', COURSES.insertProud),
  insideLimit('stick-just-long-enough', 'push-stick-short', 'stick', COURSES.stickShort),
  insideLimit('stops-just-in-time', 'slow-run-down', 'run-down', COURSES.runDown),
  insideLimit('blade-just-fast-enough', 'overspeed', 'marks', COURSES.overspeed),
  insideLimit('blade-just-large-enough', 'blade-too-small', 'size', COURSES.bladeSmall),
  insideLimit('light-just-enough', 'poor-light', 'light', COURSES.lightLow),
  insideLimit('stock-just-lies', 'stock-tips', 'stock-length', COURSES.stockLong),
];
