import type { Bench } from '../../bench/index.ts';
import { COURSES } from './courses.ts';
import type { Spoiler } from './spoiler.ts';
import { pastLimit, plainly } from './ways.ts';

const ridesOnWork = ({ guard }: Bench): boolean =>
  guard?.kind === 'self-closing' || guard?.kind === 'counterweighted';
const alongTheGrain = ({ job }: Bench): boolean => job.cut !== 'crosscut';

/** What goes wrong with knife, guards, fence and insert. */
export const GUARDING_SPOILERS: readonly Spoiler[] = [
  plainly('knife-missing', 'knife', 'sight', () => ({ knife: null })),
  pastLimit('knife-too-far', 'knife', 'measure', COURSES.knifeFar),
  pastLimit('knife-too-near', 'knife', 'measure', COURSES.knifeNear),
  {
    ...pastLimit('knife-fouls-blade', 'knife', 'close', COURSES.knifeTouches),
    // it touches or it does not: there is no far
    margins: ['plain'],
  },
  pastLimit('knife-too-thin', 'knife', 'measure', COURSES.knifeThin),
  pastLimit('knife-too-thick', 'knife', 'measure', COURSES.knifeThick),
  pastLimit('knife-too-low', 'knife', 'measure', COURSES.knifeLow),
  pastLimit('knife-above-blade', 'knife', 'measure', COURSES.knifeTall),
  pastLimit('knife-out-of-line', 'knife', 'close', COURSES.knifeSideways),
  pastLimit('knife-covers-too-little', 'knife', 'measure', COURSES.knifeArc),
  {
    ...pastLimit('knife-edge-too-flat', 'size', 'marks', COURSES.knifeFlat),
    // no bench is built for a blade smaller than the one on it, so it is never far
    margins: ['near'],
  },
  plainly('knife-play', 'knife', 'hand', (_bench, random) => ({
    knife: { play: random.step(0.3, 0.6, 0.1) },
  })),
  plainly('knife-loose', 'knife', 'hand', () => ({ knife: { locked: false } })),
  plainly('knife-damaged', 'knife', 'close', (_bench, random) => ({
    knife: { condition: random.pick(['bent', 'worn'] as const) },
  })),
  plainly('guard-missing', 'guard', 'sight', () => ({ guard: null })),
  pastLimit('guard-too-high', 'guard', 'sight', COURSES.guardHigh),
  pastLimit('guard-short-front', 'guard', 'measure', COURSES.guardBack),
  pastLimit('guard-short-rear', 'guard', 'measure', COURSES.guardForward),
  plainly('guard-stuck', 'guard', 'hand', (bench) =>
    ridesOnWork(bench) ? { guard: { stuck: true } } : null,
  ),
  plainly('guard-loose', 'guard', 'hand', (bench) =>
    ridesOnWork(bench) ? null : { guard: { locked: false } },
  ),
  plainly('guard-play', 'guard', 'hand', (_bench, random) => ({
    guard: { play: random.step(2, 6, 0.5) },
  })),
  plainly('guard-damaged', 'guard', 'close', () => ({ guard: { whole: false } })),
  plainly('guard-on-knife', 'guard-carrier', 'close', () => ({ guard: { carriedBy: 'knife' } })),
  plainly('guard-not-self-acting', 'guard', 'sight', (bench) =>
    ridesOnWork(bench)
      ? // set down on the work by hand, so that nothing else is wrong with it
        { guard: { kind: 'fixed', height: bench.job.stock.thickness } }
      : null,
  ),
  plainly('fingers-raised', 'fingers', 'sight', () => ({ guard: { fingers: 'raised' } })),
  plainly('fingers-missing', 'fingers', 'sight', () => ({ guard: { fingers: 'none' } })),
  plainly('no-under-guard', 'under', 'close', () => ({ underGuard: 'none' })),
  plainly('under-guard-open', 'under', 'close', () => ({
    underGuard: 'side-plates',
    underPlates: { apart: 120, beyond: 80 },
  })),
  plainly('under-plates-wrong', 'under', 'measure', (_bench, random) => ({
    underGuard: 'side-plates',
    underPlates: random.pick([
      { apart: random.step(160, 220, 5), beyond: 80 },
      { apart: 120, beyond: random.step(5, 40, 5) },
    ]),
  })),
  plainly('under-packed', 'under', 'close', () => ({ underPacked: true })),
  pastLimit('fence-past-gullets', 'fence-end', 'measure', COURSES.fenceLong),
  pastLimit('fence-closing', 'fence', 'measure', COURSES.fenceCloses),
  plainly('fence-loose', 'fence', 'hand', (bench) =>
    alongTheGrain(bench) ? { fence: { locked: false } } : null,
  ),
  plainly('fence-play', 'fence', 'hand', (bench, random) =>
    alongTheGrain(bench) ? { fence: { play: random.step(1, 3, 0.5) } } : null,
  ),
  plainly('fence-not-straight', 'fence', 'close', () => ({ fence: { straight: false } })),
  plainly('fence-as-stop', 'fence-stop', 'sight', ({ job }) =>
    job.cut === 'crosscut' ? { job: { stop: 'fence' } } : null,
  ),
  pastLimit('wide-insert', 'insert', 'measure', COURSES.insertWide),
  plainly('insert-loose', 'insert', 'hand', () => ({ insert: { firm: false } })),
  pastLimit('insert-proud', 'insert', 'hand', COURSES.insertProud),
  pastLimit('insert-low', 'insert', 'hand', COURSES.insertLow),
];
