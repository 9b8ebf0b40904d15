import type { Bench, Blade, Guard, Knife } from '../bench/index.ts';
import type { Random } from './random.ts';

/**
 * Ways a bench goes wrong in a workshop. Each moves the state of a sound bench; which fault that
 * makes, and under whose rule, is left to the catalogue and the limits. Two spoilers of one `group`
 * touch the same thing and are never used together.
 */
export type Spoiler = {
  readonly id: string;
  readonly group: string;
  readonly spoil: (bench: Bench, random: Random) => Bench;
};

const withCondition = (bench: Bench, change: Partial<Blade['condition']>): Bench => ({
  ...bench,
  blade: { ...bench.blade, condition: { ...bench.blade.condition, ...change } },
});

function withKnife(bench: Bench, change: (knife: Knife) => Partial<Knife>): Bench {
  const { knife } = bench;
  return knife === null ? bench : { ...bench, knife: { ...knife, ...change(knife) } };
}

function withGuard(bench: Bench, change: (guard: Guard) => Partial<Guard>): Bench {
  const { guard } = bench;
  return guard === null ? bench : { ...bench, guard: { ...guard, ...change(guard) } };
}

/** Teeth that show above the table at the operator's side, where a person can look at them. */
function frontTeeth(bench: Bench): number[] {
  const { teeth, diameter } = bench.blade;
  const half = Math.acos(Math.min(1, bench.arbor.depth / (diameter / 2)));
  const reach = Math.floor((half / (2 * Math.PI)) * teeth) - 1;
  return Array.from({ length: Math.max(1, reach) }, (_, i) => i + 1);
}

export const SPOILERS: readonly Spoiler[] = [
  {
    id: 'cracked-gullet',
    group: 'plate',
    spoil: (bench, random) =>
      withCondition(bench, {
        cracks: [
          { length: random.step(9, 28, 1), at: 'gullet', tooth: random.pick(frontTeeth(bench)) },
        ],
      }),
  },
  {
    id: 'missing-tooth',
    group: 'teeth',
    spoil: (bench, random) =>
      withCondition(bench, { missingTeeth: [random.pick(frontTeeth(bench))] }),
  },
  {
    id: 'square-gullets',
    group: 'gullets',
    spoil: (bench) => withCondition(bench, { gullets: 'square' }),
  },
  {
    id: 'dull-blade',
    group: 'edge',
    spoil: (bench) => withCondition(bench, { sharpness: 'dull' }),
  },
  { id: 'burnt-blade', group: 'plate', spoil: (bench) => withCondition(bench, { burnt: true }) },
  {
    id: 'knife-too-far',
    group: 'knife-position',
    spoil: (bench, random) =>
      withKnife(bench, (knife) => ({ along: knife.along + random.step(9, 18, 0.5) })),
  },
  {
    id: 'knife-too-thin',
    group: 'knife-thickness',
    spoil: (bench, random) =>
      withKnife(bench, () => ({
        thickness: Number((bench.blade.plate - random.step(0.3, 0.8, 0.1)).toFixed(2)),
      })),
  },
  {
    id: 'knife-play',
    group: 'knife-fixing',
    spoil: (bench, random) => withKnife(bench, () => ({ play: random.step(1.5, 4, 0.5) })),
  },
  {
    id: 'guard-too-high',
    group: 'guard-height',
    spoil: (bench, random) =>
      withGuard(bench, (guard) => ({ height: guard.height + random.step(30, 60, 1) })),
  },
  {
    id: 'guard-short-front',
    group: 'guard-position',
    // slid back along its arm: the front teeth stand clear of it
    spoil: (bench, random) =>
      withGuard(bench, (guard) => {
        const back = random.step(85, 130, 5);
        return { front: guard.front + back, rear: guard.rear + back };
      }),
  },
  {
    id: 'fingers-raised',
    group: 'fingers',
    spoil: (bench) => withGuard(bench, () => ({ fingers: 'raised' })),
  },
  {
    id: 'fence-past-gullets',
    group: 'fence',
    spoil: (bench, random) => ({
      ...bench,
      fence: { ...bench.fence, end: bench.fence.end + random.step(60, 260, 5) },
    }),
  },
  {
    id: 'wide-insert',
    group: 'insert',
    spoil: (bench, random) => {
      const wide = random.step(9, 16, 0.5);
      const { gaps } = bench.insert;
      const side = random.whole(0, 1);
      return {
        ...bench,
        insert: {
          ...bench.insert,
          gaps: side === 0 ? [wide, gaps[1]] : [gaps[0], wide],
          worn: true,
        },
      };
    },
  },
  {
    id: 'litter',
    group: 'place',
    spoil: (bench) => ({ ...bench, place: { ...bench.place, litter: true } }),
  },
];
