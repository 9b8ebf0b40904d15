import { COURSES } from './courses.ts';
import type { Spoiler } from './spoiler.ts';
import { pastLimit, plainly } from './ways.ts';

/** What goes wrong around the machine: the place, what is stored, the stock, the people. */
export const AROUND_SPOILERS: readonly Spoiler[] = [
  plainly('litter', 'floor', 'sight', () => ({ place: { litter: true } })),
  plainly('poor-floor', 'floor', 'sight', (_bench, random) => ({
    place: { floor: random.pick(['slippery', 'uneven'] as const) },
  })),
  pastLimit('poor-light', 'light', 'measure', COURSES.lightLow),
  pastLimit('dim-surround', 'light', 'measure', COURSES.surroundDim),
  plainly('glare', 'light', 'sight', () => ({ place: { glare: true } })),
  plainly('light-flickers', 'light', 'watch', () => ({ place: { flicker: true } })),
  plainly('tools-on-table', 'table-top', 'sight', () => ({ place: { toolsOnTable: true } })),
  plainly('no-waste-bin', 'bin', 'sight', () => ({ place: { wasteBin: false } })),
  plainly('walkways-unmarked', 'walkways', 'sight', () => ({ place: { walkwaysMarked: false } })),
  plainly('stock-leaning', 'storage', 'sight', () => ({
    place: { storage: { stock: 'leaning' } },
  })),
  plainly('blades-loose', 'storage', 'sight', () => ({ place: { storage: { blades: 'loose' } } })),
  plainly('storage-in-the-way', 'storage', 'sight', () => ({
    place: { storage: { blocksWay: true } },
  })),
  plainly('solvents-near', 'storage', 'sight', () => ({ place: { storage: { solvents: true } } })),
  pastLimit('stock-tips', 'stock-length', 'measure', COURSES.stockLong),
  plainly('stock-metal', 'stock', 'close', () => ({ job: { stock: { metal: true } } })),
  plainly('stock-not-flat', 'stock', 'close', (_bench, random) => ({
    job: { stock: { shape: random.pick(['bowed', 'cupped', 'twisted'] as const) } },
  })),
  plainly('round-stock-loose', 'stock', 'sight', () => ({
    job: { cradle: false, stock: { shape: 'round' } },
  })),
  plainly('loose-knots', 'stock', 'close', () => ({ job: { stock: { looseKnots: true } } })),
  plainly('no-push-stick', 'stick', 'sight', ({ job }) =>
    job.cut === 'crosscut' ? null : { people: { pushStick: null } },
  ),
  pastLimit('push-stick-short', 'stick', 'measure', COURSES.stickShort),
  pastLimit('push-stick-late', 'stick', 'watch', COURSES.stickLate),
  plainly('push-stick-no-notch', 'stick', 'close', ({ people }) =>
    people.pushStick === null ? null : { people: { pushStick: { notched: false } } },
  ),
  // the rule that has a figure for it has it for narrow work
  plainly('hand-too-near', 'stick', 'watch', ({ people, job }, random) => {
    if (people.pushStick === null || job.cut === 'crosscut') return null;
    const width = random.step(60, 115, 5);
    return {
      job: { widthOfCut: width },
      fence: { face: width },
      people: { pushStick: { usedForLast: random.step(40, 110, 10) } },
    };
  }),
  plainly('in-line-of-cut', 'stance', 'sight', ({ fence }, random) => ({
    people: { operator: { z: random.step(5, Math.max(5, fence.face - 10), 5) } },
  })),
  plainly('bystander-in-line', 'bystander', 'sight', ({ fence }, random) => ({
    people: {
      bystander: {
        x: -random.step(2000, 3500, 100),
        z: random.step(5, Math.max(5, fence.face - 10), 5),
      },
    },
  })),
  plainly('take-off-too-near', 'take-off', 'sight', ({ people, table }, random) =>
    people.takeOff === null
      ? null
      : { people: { takeOff: { x: table.outfeed - random.step(50, 300, 25) } } },
  ),
  plainly('loose-sleeves', 'sleeves', 'sight', () => ({
    people: { operator: { sleeves: 'loose' } },
  })),
  plainly('no-eye-protection', 'eyes', 'sight', () => ({ people: { operator: { eyes: 'none' } } })),
  plainly('no-ear-protection', 'ears', 'sight', () => ({ people: { operator: { ears: 'none' } } })),
  plainly('poor-footwear', 'footwear', 'sight', (_bench, random) => ({
    people: { operator: { footwear: random.pick(['sandals', 'trainers']) } },
  })),
  plainly('gloves', 'hands', 'sight', () => ({ people: { operator: { gloves: true } } })),
  plainly('loose-hair', 'hair', 'sight', () => ({ people: { operator: { hair: 'loose' } } })),
  plainly('jewellery', 'hands', 'close', () => ({ people: { operator: { jewellery: true } } })),
];
