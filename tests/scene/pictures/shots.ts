import type { Bench, Part } from '../../../src/bench/index.ts';
import { type BenchOverrides, makeBench } from '../../helpers/bench.ts';

/**
 * One thing to be seen, as the picture with it less the picture without it, from one place. What the
 * two share (room, people, light) falls out, so a reference holds what the fault looks like and nothing else.
 */
export type Shot = {
  readonly id: string;
  readonly with: Bench;
  readonly without: Bench;
  readonly from: { readonly view: string } | { readonly part: Part };
};

const shot = (
  id: string,
  from: string,
  over: BenchOverrides,
  without: BenchOverrides = {},
): Shot => ({
  id,
  with: makeBench(over),
  without: makeBench(without),
  from: from.startsWith('part:') ? { part: from.slice(5) as Part } : { view: from },
});

const state = (condition: NonNullable<NonNullable<BenchOverrides['blade']>['condition']>) => ({
  blade: { condition },
});
/** The same crack of no length: the blade comes to rest at the same angle. */
const crack = (at: 'gullet' | 'rim', length: number) =>
  state({ cracks: [{ at, length, tooth: 4 }] });
const bare = { underGuard: 'none' } as const;
const belts = { driveGuard: 'none' } as const;

/** Faults of the machine that an eye finds in the picture. */
export const FAULT_SHOTS: readonly Shot[] = [
  shot('cracked-gullet', 'teeth', crack('gullet', 18), crack('gullet', 0)),
  shot('cracked-rim', 'teeth', crack('rim', 18), crack('rim', 0)),
  // against one another, for a blade stops at the same angle for both
  shot('missing-tooth', 'teeth', state({ missingTeeth: [14] }), state({ broken: [14] })),
  shot(
    'missing-teeth',
    'fence-side',
    { ...state({ missingTeeth: [2, 3, 4, 5] }), guard: null },
    { guard: null },
  ),
  shot('square-gullets', 'teeth', state({ gullets: 'square' })),
  shot('dull-blade', 'teeth', state({ sharpness: 'dull' })),
  shot('uneven-filing', 'teeth', state({ sharpness: 'uneven' })),
  shot('burnt-blade', 'teeth', state({ burnt: true })),
  shot('resin-build-up', 'teeth', state({ resin: true })),
  shot('blade-unmarked', 'teeth', state({ marked: false })),
  shot('blade-backwards', 'teeth', { blade: { mounted: 'backwards' } }),
  shot('flanges-unlike', 'under', { ...bare, arbor: { flanges: 'unlike' } }, bare),
  shot('flanges-dirty', 'under', { ...bare, arbor: { flanges: 'dirty' } }, bare),
  shot('nut-loose', 'under', { ...bare, arbor: { nut: 'loose' } }, bare),
  shot(
    'packing-worn',
    'under',
    { ...bare, arbor: { packing: 'worn' } },
    { ...bare, arbor: { packing: 'fitted' } },
  ),
  shot('under-packed', 'under', { ...bare, underPacked: true }, bare),
  shot('no-under-guard', 'under', bare),
  shot('under-guard-open', 'under', { underGuard: 'side-plates' }),
  shot('drive-uncovered', 'part:drive', belts),
  shot('belt-slack', 'part:drive', { ...belts, driveBelt: 'slack' }, belts),
  shot('belt-worn', 'part:drive', { ...belts, driveBelt: 'worn' }, belts),
  shot('knife-missing', 'knife', { knife: null }),
  shot('knife-too-far', 'knife', { knife: { along: 14 } }),
  shot('knife-too-low', 'knife', { knife: { reach: 150 } }),
  shot('knife-bent', 'knife', { knife: { condition: 'bent' } }),
  shot('knife-worn', 'knife', { knife: { condition: 'worn' } }),
  shot('guard-missing', 'fence-side', { guard: null }),
  shot('guard-too-high', 'fence-side', { guard: { height: 95 } }),
  shot('guard-short-front', 'fence-side', { guard: { front: -120 } }),
  shot('guard-short-rear', 'fence-side', { guard: { rear: 120 } }),
  shot('fingers-raised', 'fence-side', { guard: { fingers: 'raised' } }),
  shot('fingers-missing', 'fence-side', { guard: { fingers: 'none' } }),
  shot('insert-worn', 'part:insert', { insert: { worn: true } }),
  shot('insert-wide', 'part:insert', { insert: { gaps: [14, 3] } }),
  shot('insert-loose', 'part:insert', { insert: { firm: false } }),
  shot('table-unsound', 'above', { table: { sound: false } }),
  shot('offcuts-on-table', 'above', { table: { offcuts: true } }),
  shot('fence-past-gullets', 'above', { fence: { end: 160 } }),
  shot('fence-closing', 'above', { fence: { toe: -18 } }),
];

const guard = (id: string, over: NonNullable<BenchOverrides['guard']>, rest: BenchOverrides = {}) =>
  shot(`guard-${id}`, 'fence-side', { ...rest, guard: over }, { ...rest, guard: null });

/** Each kind of guard, against the bench with none. */
export const GUARD_SHOTS: readonly Shot[] = [
  guard('fixed', { kind: 'fixed' }),
  guard('window-and-flap', { kind: 'fixed', window: true, flap: 'down' }),
  guard('flap-up', { kind: 'fixed', window: true, flap: 'up' }),
  guard('self-closing', { kind: 'self-closing' }),
  guard('self-closing-stuck', { kind: 'self-closing', height: 90, stuck: true }),
  guard('counterweighted', { kind: 'counterweighted' }),
  guard('suspended', { kind: 'suspended' }),
  guard('leans', { kind: 'fixed' }, { arbor: { tilt: 30 }, knife: null }),
];
