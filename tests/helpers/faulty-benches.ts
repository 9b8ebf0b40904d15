import { type BenchOverrides, makeBench } from './bench.ts';
import { FAULTY_SURROUNDINGS } from './faulty-surroundings.ts';
import { knifeAround } from './oracle-case.ts';

/** The sound bench changed so that one kind of fault is on it, and the set it takes to say so. */
export type FaultyBench = {
  readonly fault: string;
  readonly how: string;
  readonly bench: BenchOverrides;
  /** id of a limit set */
  readonly set: string;
};

const faulty = (
  fault: string,
  how: string,
  bench: BenchOverrides,
  set: FaultyBench['set'] = 'gb',
): FaultyBench => ({ fault, how, bench, set });

const HALF_CHORD = Math.sqrt(200 ** 2 - 110 ** 2);
const PERSON = { ...makeBench().people.operator, x: 1400 };

const BLADE: readonly FaultyBench[] = [
  faulty('cracked-gullet', 'a crack from a gullet', {
    blade: { condition: { cracks: [{ length: 9, at: 'gullet', tooth: 3 }] } },
  }),
  faulty('cracked-plate', 'a crack from the bore', {
    blade: { condition: { cracks: [{ length: 9, at: 'bore' }] } },
  }),
  faulty('cracked-plate', 'a crack from the rim', {
    blade: { condition: { cracks: [{ length: 9, at: 'rim' }] } },
  }),
  faulty('missing-tooth', 'tooth 4 gone', { blade: { condition: { missingTeeth: [4] } } }),
  faulty('square-gullets', 'gullets filed square', { blade: { condition: { gullets: 'square' } } }),
  faulty('dull-blade', 'dull all round', { blade: { condition: { sharpness: 'dull' } } }),
  faulty('uneven-teeth', 'sharpened unevenly', { blade: { condition: { sharpness: 'uneven' } } }),
  faulty('uneven-teeth', 'set unevenly', { blade: { condition: { set: 'uneven' } } }),
  faulty('burnt-blade', 'a blue patch', { blade: { condition: { burnt: true } } }),
  faulty('blade-unmarked', 'marks gone', { blade: { condition: { marked: false } } }),
  faulty('blade-too-small', '400 on a bench for 700', { arbor: { largestBlade: 700 } }),
  faulty('blade-too-large', '400 on a bench for 399', { arbor: { largestBlade: 399 } }),
  faulty('overspeed', 'marked 2999, driven at 3000', { blade: { maxSpeed: 2999 } }),
  faulty('overspeed', 'the same under eu', { blade: { maxSpeed: 2999 } }, 'eu'),
  faulty('blade-too-low', 'level with the stock', { job: { stock: { thickness: 90 } } }),
  faulty(
    'blade-too-low',
    'the same under eu, which has no such limit',
    { job: { stock: { thickness: 90 } } },
    'eu',
  ),
];

const MACHINE: readonly FaultyBench[] = [
  faulty('slow-run-down', '10.1 s', { arbor: { runDown: 10.1 } }),
  faulty('vibration', 'felt', { arbor: { vibration: 'felt' } }),
  faulty('drive-uncovered', 'no cover', { driveGuard: 'none' }),
  faulty('no-under-guard', 'nothing', { underGuard: 'none' }),
  faulty('under-guard-open', 'side plates alone', { underGuard: 'side-plates' }),
  faulty('wide-insert', 'both gaps over 5', { insert: { gaps: [5.1, 5.1] } }),
  faulty('wide-insert', 'chewed away on one side', { insert: { gaps: [3, 12], worn: true } }),
  faulty('insert-proud', '0.6 above the table', { insert: { step: 0.6 } }),
  faulty('insert-low', '0.6 below the table', { insert: { step: -0.6 } }),
  faulty('table-short', '1199 with a taker-off', {
    table: { outfeed: 1199 },
    people: { takeOff: PERSON },
  }),
  faulty('table-not-level', 'a step in it', { table: { level: false } }),
  faulty('table-unsound', 'cracked', { table: { sound: false } }),
  faulty('no-isolator', 'none', { controls: { isolator: 'none' } }),
  faulty('no-lockable-isolator', 'a plain one', { controls: { isolator: 'plain' } }),
  faulty('starts-by-itself', 'no drop-out', { controls: { underVoltage: false } }),
];

const KNIFE: readonly FaultyBench[] = [
  faulty('knife-missing', 'ripping without it', { knife: null }),
  faulty(
    'knife-missing',
    'ripping without it under practice, which has no such limit',
    { knife: null },
    'practice',
  ),
  faulty(
    'knife-missing',
    'crosscutting without it under eu',
    { knife: null, job: { cut: 'crosscut' } },
    'eu',
  ),
  faulty('knife-too-far', 'gap 8.1', knifeAround(8.1)),
  faulty('knife-too-far', 'gap 12.8 under us-ca', knifeAround(12.8), 'us-ca'),
  faulty('knife-too-near', 'gap 2.9 under eu', knifeAround(2.9), 'eu'),
  faulty('knife-fouls-blade', 'gap 0', knifeAround(0.000_000_1)),
  faulty('knife-fouls-blade', 'inside the teeth at the tip', {
    knife: { up: -6, reach: 203 },
  }),
  faulty('knife-too-thin', 'as thick as the plate', { knife: { thickness: 2.8 } }),
  faulty('knife-too-thin', 'plate + 0.1 under eu', { knife: { thickness: 2.9 } }, 'eu'),
  faulty(
    'knife-too-thin',
    'thinner than the plate under us-ca, which has no such limit',
    { knife: { thickness: 2.7 } },
    'us-ca',
  ),
  faulty('knife-too-thick', 'as thick as the kerf', { knife: { thickness: 4.2 } }),
  faulty('knife-play', 'half a millimetre', { knife: { play: 0.5 } }),
  faulty('knife-loose', 'clamp slack', { knife: { locked: false } }),
  faulty('knife-out-of-line', '0.6 to one side with 0.5 to spare', { knife: { lateral: -0.6 } }),
  faulty('knife-too-low', 'tip 2.1 down under eu', knifeAround(5, 2.1), 'eu'),
  faulty('knife-above-blade', 'tip above the teeth', knifeAround(5, -1), 'practice'),
];

const GUARD: readonly FaultyBench[] = [
  faulty('guard-missing', 'ripping without it', { guard: null }),
  faulty(
    'guard-missing',
    'crosscutting without it under practice',
    { guard: null, job: { cut: 'crosscut' } },
    'practice',
  ),
  faulty('guard-too-high', 'gullets show', { guard: { height: 80 } }),
  faulty('guard-too-high', '6.4 above the stock under us-ca', { guard: { height: 56.4 } }, 'us-ca'),
  faulty('guard-short-front', 'front teeth bare', { guard: { front: 1 - HALF_CHORD } }),
  faulty(
    'guard-short-front',
    'two inches past under practice',
    { guard: { front: -50.8 - HALF_CHORD } },
    'practice',
  ),
  faulty('guard-short-rear', 'rear teeth bare', { guard: { rear: HALF_CHORD - 1 } }),
  faulty(
    'guard-short-rear',
    'two inches past under practice',
    { guard: { rear: HALF_CHORD + 50.8 } },
    'practice',
  ),
  faulty('guard-stuck', 'flaps stay up', { guard: { kind: 'self-closing', stuck: true } }),
  faulty('guard-loose', 'clamp slack', { guard: { locked: false } }),
  faulty('guard-play', 'swings', { guard: { play: 2 } }),
  faulty('fingers-missing', 'none under us-ca', { guard: { fingers: 'none' } }, 'us-ca'),
  faulty('fingers-raised', 'tied up', { guard: { fingers: 'raised' } }),
];

const AROUND: readonly FaultyBench[] = [
  faulty('fence-past-gullets', '19 past the teeth', { fence: { end: 19 - HALF_CHORD } }),
  faulty(
    'fence-past-gullets',
    'past the gullets under practice',
    { fence: { end: -149 } },
    'practice',
  ),
  faulty('fence-closing', 'closes 0.1', { fence: { toe: -0.1 } }),
  faulty('fence-closing', 'closes 0.1 under practice', { fence: { toe: -0.1 } }, 'practice'),
  faulty('fence-loose', 'lever up', { fence: { locked: false } }),
  faulty('fence-play', 'gives at its end', { fence: { play: 1 } }),
  faulty('litter', 'offcuts on the floor', { place: { litter: true } }),
  faulty('poor-floor', 'slippery', { place: { floor: 'slippery' } }),
  faulty('poor-floor', 'uneven', { place: { floor: 'uneven' } }),
  faulty('poor-light', '499 lx under eu', { place: { light: 499 } }, 'eu'),
  faulty('tools-on-table', 'a spanner', { place: { toolsOnTable: true } }),
  faulty('loose-foundation', 'it rocks', { place: { foundation: 'loose' } }),
  faulty('no-waste-bin', 'none', { place: { wasteBin: false } }),
  faulty('walkways-unmarked', 'no lines', { place: { walkwaysMarked: false } }),
  faulty('no-push-stick', 'none', { people: { pushStick: null } }),
  faulty('push-stick-short', '449', { people: { pushStick: { length: 449 } } }),
  faulty('push-stick-late', 'the last 100', { people: { pushStick: { usedForLast: 100 } } }),
  faulty('push-stick-late', 'the last 299', { people: { pushStick: { usedForLast: 299 } } }),
  faulty('stock-tips', '2400 with nobody taking off', { job: { stock: { length: 2400 } } }),
  faulty('in-line-of-cut', 'behind the piece', { people: { operator: { z: 75 } } }),
  faulty('loose-sleeves', 'cuffs open', { people: { operator: { sleeves: 'loose' } } }),
  faulty('no-eye-protection', 'none', { people: { operator: { eyes: 'none' } } }),
  faulty('no-ear-protection', 'none', { people: { operator: { ears: 'none' } } }),
  faulty('poor-footwear', 'sandals', { people: { operator: { footwear: 'sandals' } } }),
];

export const FAULTY_BENCHES: readonly FaultyBench[] = [
  ...BLADE,
  ...MACHINE,
  ...KNIFE,
  ...GUARD,
  ...AROUND,
  ...FAULTY_SURROUNDINGS.map(([fault, how, bench, set = 'gb']) => faulty(fault, how, bench, set)),
];
