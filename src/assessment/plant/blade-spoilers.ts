import { COURSES } from './courses.ts';
import { frontTeeth } from './front-teeth.ts';
import type { Spoiler } from './spoiler.ts';
import { pastLimit, plainly } from './ways.ts';

/** What goes wrong with the blade and the spindle that carries it. */
export const BLADE_SPOILERS: readonly Spoiler[] = [
  plainly('cracked-gullet', 'plate', 'close', (bench, random) => ({
    blade: {
      condition: {
        cracks: [
          { length: random.step(9, 28, 1), at: 'gullet', tooth: random.pick(frontTeeth(bench)) },
        ],
      },
    },
  })),
  plainly('cracked-plate', 'plate', 'close', (bench, random) => ({
    blade: {
      condition: {
        cracks: [
          {
            length: random.step(9, 24, 1),
            at: random.pick(['rim', 'bore'] as const),
            tooth: random.pick(frontTeeth(bench)),
          },
        ],
      },
    },
  })),
  plainly('missing-tooth', 'teeth', 'close', (bench, random) => ({
    blade: { condition: { missingTeeth: [random.pick(frontTeeth(bench))] } },
  })),
  plainly('broken-tooth', 'teeth', 'close', (bench, random) => ({
    blade: { condition: { broken: [random.pick(frontTeeth(bench))] } },
  })),
  plainly('square-gullets', 'gullets', 'close', () => ({
    blade: { condition: { gullets: 'square' } },
  })),
  plainly('dull-blade', 'edge', 'close', () => ({ blade: { condition: { sharpness: 'dull' } } })),
  plainly('uneven-teeth', 'edge', 'close', (_bench, random) => ({
    blade: {
      condition: random.pick([{ sharpness: 'uneven' as const }, { set: 'uneven' as const }]),
    },
  })),
  plainly('burnt-blade', 'plate', 'sight', () => ({ blade: { condition: { burnt: true } } })),
  plainly('resin-build-up', 'plate', 'close', () => ({ blade: { condition: { resin: true } } })),
  plainly('blade-unmarked', 'marks', 'marks', () => ({ blade: { condition: { marked: false } } })),
  plainly('blade-backwards', 'mounted', 'sight', () => ({ blade: { mounted: 'backwards' } })),
  plainly('tool-not-for-hand-feed', 'hand-feed', 'marks', ({ job }) =>
    job.cut === 'groove' || job.cut === 'rebate' ? { blade: { handFeedMark: false } } : null,
  ),
  pastLimit('blade-too-small', 'size', 'marks', COURSES.bladeSmall),
  pastLimit('blade-too-large', 'size', 'marks', COURSES.bladeLarge),
  pastLimit('overspeed', 'marks', 'marks', COURSES.overspeed),
  pastLimit('blade-too-low', 'height', 'measure', COURSES.bladeLow),
  pastLimit('slow-run-down', 'run-down', 'watch', COURSES.runDown),
  plainly('vibration', 'vibration', 'hand', () => ({ arbor: { vibration: 'felt' } })),
  plainly('flanges-wrong', 'flanges', 'close', (_bench, random) => ({
    arbor: { flanges: random.pick(['unlike', 'dirty'] as const) },
  })),
  plainly('nut-loose', 'nut', 'hand', () => ({ arbor: { nut: 'loose' } })),
  plainly('packing-worn', 'packing', 'close', () => ({ arbor: { packing: 'worn' } })),
];
