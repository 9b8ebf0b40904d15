import { describe } from 'vitest';
import { checkLimits, type LimitCase } from '../helpers/oracle-case.ts';

/** Figures of the sets for Germany, the United States, Washington, Hong Kong, South Africa, New Zealand and Australia. */

const row = (
  limit: string,
  says: string,
  bench: LimitCase['bench'],
  verdict: LimitCase['verdict'],
  source: string,
): LimitCase => ({ limit, says, bench, verdict, source });

const FITTED_FOR = [
  ['de.knife.fitted', 'DGUV Regel 100-500; BG BAU B 252'],
  ['us.knife.fitted', '29 CFR 1910.213(c)(2)'],
  ['hk.knife.fitted', 'Cap. 59G'],
  ['za.knife.fitted', 'Driven Machinery Regulations 2015'],
  ['nz.knife.fitted', 'WorkSafe New Zealand'],
  ['au.knife.fitted', 'WorkSafe Western Australia on AS 1473.2-2001'],
] as const;

describe('a riving knife is fitted', () => {
  checkLimits(
    FITTED_FOR.flatMap(([limit, source]) => [
      row(limit, 'ripping with it', {}, 'within', source),
      row(limit, 'ripping without it', { knife: null }, 'outside', source),
      row(
        limit,
        'grooving without it',
        { knife: null, job: { cut: 'groove' } },
        'not-applicable',
        source,
      ),
    ]),
  );
});

describe('Germany', () => {
  const narrow = (widthOfCut: number, usedForLast = 300): LimitCase['bench'] => ({
    job: { widthOfCut },
    people: { pushStick: { usedForLast } },
  });
  const without = (widthOfCut: number): LimitCase['bench'] => ({
    job: { widthOfCut },
    people: { pushStick: null },
  });
  const texts = 'DGUV Regel 100-500; BG BAU B 252';
  const gaps = (left: number, right: number): LimitCase['bench'] => ({
    insert: { gaps: [left, right] },
  });
  checkLimits([
    row('de.stick', '119 wide without a push stick', without(119), 'outside', texts),
    row('de.stick', '120 wide without a push stick', without(120), 'not-applicable', texts),
    row('de.hand', 'the hand 120 from the teeth', narrow(119, 120), 'within', texts),
    row('de.hand', 'the hand 119 from the teeth', narrow(119, 119), 'outside', texts),
    row('de.hand', 'work 120 wide', narrow(120, 50), 'not-applicable', texts),
    row('de.insert', 'gaps of 5 and 5', gaps(5, 5), 'not-applicable', 'BG BAU B 265'),
    row('de.insert', 'gaps of 5.1 and 5.1', gaps(5.1, 5.1), 'outside', 'BG BAU B 265'),
    row('de.insert', 'gaps of 4 and 9', gaps(4, 9), 'within', 'BG BAU B 265'),
    row('de.insert', 'gaps of 9 and 4', gaps(9, 4), 'not-applicable', 'BG BAU B 265'),
    row(
      'de.knife.drop',
      'a tip 2 down',
      { knife: { edgeRadius: 205, along: 0, reach: 198 } },
      'within',
      texts,
    ),
    row(
      'de.knife.drop',
      'a tip 3 down',
      { knife: { edgeRadius: 205, along: 0, reach: 197 } },
      'outside',
      texts,
    ),
  ]);
});

describe('United States, federal', () => {
  const us = (clause: string) => `29 CFR 1910.213${clause}`;
  const fence = (toe: number): LimitCase['bench'] => ({ fence: { toe } });
  checkLimits([
    row('us.guard.fitted', 'no hood', { guard: null }, 'outside', us('(c)(1)')),
    row(
      'us.guard.fitted',
      'no hood when grooving',
      { guard: null, job: { cut: 'groove' } },
      'not-applicable',
      us('(c)(1)'),
    ),
    row('us.guard.fingers', 'no fingers', { guard: { fingers: 'none' } }, 'outside', us('(c)(3)')),
    row('us.guard.fingers', 'fingers', { guard: { fingers: 'resting' } }, 'within', us('(c)(3)')),
    row(
      'us.guard.fingers',
      'no fingers when rebating',
      { guard: { fingers: 'none' }, job: { cut: 'rebate' } },
      'not-applicable',
      us('(c)(3)'),
    ),
    row(
      'us.stop',
      'a stop past the blade',
      { controls: { stopOverBlade: true } },
      'outside',
      us('(b)(1)'),
    ),
    row(
      'us.stop',
      'a stop at hand',
      { controls: { stopOverBlade: false } },
      'within',
      us('(b)(1)'),
    ),
    row(
      'us.restart',
      'a restart by itself',
      { controls: { underVoltage: false } },
      'outside',
      us('(b)(3)'),
    ),
    row(
      'us.arbor.vibration',
      'vibration felt',
      { arbor: { vibration: 'felt' } },
      'outside',
      us('(a)(1)'),
    ),
    row(
      'us.blade.large',
      'a 400 mm blade on a bench for 400',
      { arbor: { largestBlade: 400 } },
      'within',
      us('(a)(5)'),
    ),
    row(
      'us.blade.large',
      'a 400 mm blade on a bench for 399',
      { arbor: { largestBlade: 399 } },
      'outside',
      us('(a)(5)'),
    ),
    row('us.fence.secure', 'a loose fence', { fence: { locked: false } }, 'outside', us('(a)(6)')),
    row('us.fence.parallel', 'a parallel fence', fence(0), 'within', us('(a)(6)')),
    row('us.fence.parallel', 'a closing fence', fence(-0.1), 'outside', us('(a)(6)')),
    row(
      'us.knife.thinner',
      'a spreader as thick as the kerf, from memory,',
      { knife: { thickness: 4.2 } },
      'advice',
      us('(c)(2), from memory'),
    ),
    row(
      'us.blade.crack',
      'a crack, from memory,',
      { blade: { condition: { cracks: [{ length: 1, at: 'rim' }] } } },
      'advice',
      us('(s), from memory'),
    ),
    row(
      'us.blade.sharp',
      'a dull blade, from memory,',
      { blade: { condition: { sharpness: 'dull' } } },
      'advice',
      us('(s), from memory'),
    ),
    row(
      'us.age',
      'an operator of 18',
      { people: { operator: { age: 18 } } },
      'within',
      '29 CFR 570.55, 570.65',
    ),
    row(
      'us.age',
      'an operator of 17',
      { people: { operator: { age: 17 } } },
      'outside',
      '29 CFR 570.55, 570.65',
    ),
    row(
      'us.age',
      'an operator of whom no age is told',
      {},
      'not-applicable',
      '29 CFR 570.55, 570.65',
    ),
  ]);
});

describe('Washington: a crack withdraws the blade when it reaches the figure for its size', () => {
  const cracked = (inches: number, crack: number): LimitCase['bench'] => ({
    blade: {
      diameter: inches * 25.4,
      condition: {
        cracks: [
          { length: 1, at: 'bore' },
          { length: crack * 25.4, at: 'gullet' },
        ],
      },
    },
    arbor: { depth: 50, largestBlade: 2000, speed: 500 },
    knife: null,
  });
  const sizes = [
    [12, 'crack12', 0.5],
    [24, 'crack24', 1],
    [36, 'crack36', 1.5],
    [48, 'crack48', 2],
    [60, 'crack60', 2.5],
    [61, 'crackOver', 3],
  ] as const;
  const WAC = 'WAC 296-78-610';
  checkLimits(
    sizes.flatMap(([size, limit, reach], i) => [
      row(
        `us-wa.blade.${limit}`,
        `${reach} in of a ${size} in blade`,
        cracked(size, reach),
        'outside',
        WAC,
      ),
      row(
        `us-wa.blade.${limit}`,
        `just under ${reach} in of a ${size} in blade`,
        cracked(size, reach - 0.01),
        'within',
        WAC,
      ),
      row(
        `us-wa.blade.${sizes[i + 1]?.[1] ?? 'crack60'}`,
        `a ${size} in blade, which is of another size,`,
        cracked(size, 0.1),
        'not-applicable',
        WAC,
      ),
    ]),
  );
});

describe('Hong Kong', () => {
  const HK = 'Cap. 59G regulations 10 and 17';
  const plates = (apart: number, beyond: number): LimitCase['bench'] => ({
    underGuard: 'side-plates',
    underPlates: { apart, beyond },
  });
  checkLimits([
    row(
      'hk.knife.radius',
      'an edge as flat as the largest blade',
      { arbor: { largestBlade: 408 } },
      'within',
      HK,
    ),
    row(
      'hk.knife.radius',
      'an edge flatter than the largest blade',
      { arbor: { largestBlade: 407 } },
      'outside',
      HK,
    ),
    row('hk.blade.crack', 'a whole blade', {}, 'within', HK),
    row(
      'hk.blade.crack',
      'any crack',
      { blade: { condition: { cracks: [{ length: 0.5, at: 'bore' }] } } },
      'outside',
      HK,
    ),
    row('hk.under.apart', 'plates 150 apart', plates(150, 50), 'within', HK),
    row('hk.under.apart', 'plates 151 apart', plates(151, 50), 'outside', HK),
    row('hk.under.beyond', 'plates 50 past the teeth', plates(150, 50), 'within', HK),
    row('hk.under.beyond', 'plates 49 past the teeth', plates(150, 49), 'outside', HK),
    row(
      'hk.under.apart',
      'an enclosed blade',
      { underPlates: { apart: 200, beyond: 0 } },
      'not-applicable',
      HK,
    ),
  ]);
});

describe('South Africa, New Zealand, Australia', () => {
  const ZA = 'Driven Machinery Regulations 2015, regulation 4';
  checkLimits([
    row('za.knife.radius', 'an edge 3 mm flatter', { arbor: { largestBlade: 402 } }, 'within', ZA),
    row(
      'za.knife.radius',
      'an edge 3.5 mm flatter',
      { arbor: { largestBlade: 401 } },
      'outside',
      ZA,
    ),
    row('za.guard.teeth', 'gullets covered', {}, 'within', ZA),
    row('za.guard.teeth', 'gullets in sight', { guard: { height: 80 } }, 'outside', ZA),
    row('za.guard.fitted', 'no guard', { guard: null }, 'outside', ZA),
    row('za.blade.speed', 'marked 3000 at 3000', { blade: { maxSpeed: 3000 } }, 'within', ZA),
    row('za.blade.speed', 'marked 2999 at 3000', { blade: { maxSpeed: 2999 } }, 'outside', ZA),
    row(
      'nz.stick.notch',
      'a notched stick',
      { people: { pushStick: { notched: true } } },
      'within',
      'WorkSafe New Zealand',
    ),
    row(
      'nz.stick.notch',
      'a square stick',
      { people: { pushStick: { notched: false } } },
      'outside',
      'WorkSafe New Zealand',
    ),
    row(
      'au.guard.fitted',
      'ripping panels without a guard',
      { guard: null },
      'outside',
      'WorkSafe Western Australia',
    ),
    row(
      'au.guard.fitted',
      'grooving without a guard',
      { guard: null, job: { cut: 'groove' } },
      'not-applicable',
      'WorkSafe Western Australia',
    ),
  ]);
});

describe('Europe, where the bench file says more than it must', () => {
  const EN = 'EN 1870-1:2007+A1:2009';
  checkLimits([
    row(
      'eu.knife.rigid',
      'a tip that gives 2 mm',
      { knife: { deflection: 2 } },
      'within',
      `${EN}, Annex D`,
    ),
    row(
      'eu.knife.rigid',
      'a tip that gives 2.1 mm',
      { knife: { deflection: 2.1 } },
      'outside',
      `${EN}, Annex D`,
    ),
    row(
      'eu.guard.separate',
      'a guard on the knife of a 400 mm blade',
      { guard: { carriedBy: 'knife' } },
      'outside',
      `${EN}, guard clause h`,
    ),
    row(
      'eu.guard.separate',
      'a guard on an arm',
      { guard: { carriedBy: 'frame' } },
      'within',
      `${EN}, guard clause h`,
    ),
    row(
      'eu.guard.separate',
      'a guard on the knife of a 315 mm blade',
      {
        blade: { diameter: 315 },
        knife: { edgeRadius: 162, along: 0, reach: 155 },
        guard: { carriedBy: 'knife' },
      },
      'not-applicable',
      `${EN}, guard clause h`,
    ),
    row(
      'eu.groove.marked',
      'an unmarked grooving tool',
      { job: { cut: 'groove' }, blade: { handFeedMark: false } },
      'outside',
      `${EN}, 6.3 l`,
    ),
    row(
      'eu.light.around',
      '300 lx around',
      { place: { lightAround: 300 } },
      'within',
      'EN 1837:2020, 4.2',
    ),
    row(
      'eu.light.around',
      '299 lx around',
      { place: { lightAround: 299 } },
      'outside',
      'EN 1837:2020, 4.2',
    ),
    row(
      'eu.light.evenAround',
      'evenness 0.3 around',
      { place: { uniformityAround: 0.3 } },
      'within',
      'EN 1837:2020, 4.2',
    ),
    row(
      'eu.light.evenAround',
      'evenness 0.29 around',
      { place: { uniformityAround: 0.29 } },
      'outside',
      'EN 1837:2020, 4.2',
    ),
  ]);
});
