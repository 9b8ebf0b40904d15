import { describe } from 'vitest';
import { makeBench } from '../helpers/bench.ts';
import { checkLimits, knifeAround, type LimitCase } from '../helpers/oracle-case.ts';

/** Figures published for Great Britain, each at the limit and just past it. */

const PAGE = 'HSE circular saw bench page';
const WIS16 = 'HSE WIS16 rev 2';
const WIS38 = 'HSE WIS16 rev 2, WIS38 rev 1, PUWER 1998 reg 15';
const gb = (
  limit: string,
  says: string,
  bench: LimitCase['bench'],
  verdict: LimitCase['verdict'],
  source = PAGE,
): LimitCase => ({ limit: `gb.${limit}`, says, bench, verdict, source });

/** The tip circle cuts the table at this distance before the axis: sqrt(200^2 - 110^2). */
const HALF_CHORD = Math.sqrt(200 ** 2 - 110 ** 2);
const TAKE_OFF = makeBench().people.operator;

/** A bench for blades up to 300 mm with a small blade on it. */
const smallBlade = (diameter: number): LimitCase['bench'] => ({
  blade: { diameter },
  arbor: { depth: 40, largestBlade: 300 },
  knife: { edgeRadius: diameter / 2 + 4, along: 0, up: 0, reach: diameter / 2 - 1 },
  guard: { height: 30 },
  job: { stock: { thickness: 25 } },
});

describe('riving knife', () => {
  checkLimits([
    gb('knife.gap', 'a gap of 8.0 at the table', knifeAround(8), 'within'),
    gb('knife.gap', 'a gap of 8.1 at the table', knifeAround(8.1), 'outside'),
    gb(
      'knife.gap',
      'a gap of 10',
      knifeAround(10),
      'outside',
      'check case 3, figure from the HSE page',
    ),
    gb(
      'knife.gap',
      'a gap of 10 when crosscutting',
      { ...knifeAround(10), job: { cut: 'crosscut' } },
      'not-applicable',
    ),
    gb(
      'knife.thicker',
      'knife 2.2 on plate 2.2',
      { blade: { plate: 2.2 }, knife: { thickness: 2.2 } },
      'outside',
    ),
    gb(
      'knife.thicker',
      'knife 2.1 on plate 2.0',
      { blade: { plate: 2 }, knife: { thickness: 2.1 } },
      'within',
    ),
    gb('knife.thinner', 'knife 4.2 in kerf 4.2', { knife: { thickness: 4.2 } }, 'outside'),
    gb('knife.thinner', 'knife 4.1 in kerf 4.2', { knife: { thickness: 4.1 } }, 'within'),
    gb(
      'knife.drop',
      'a tip 30 down, from memory,',
      knifeAround(5, 30),
      'advice',
      'HSE WIS16, from memory',
    ),
    gb('knife.tall', 'a blade of 400', {}, 'not-applicable', 'HSE WIS16, from memory'),
    gb(
      'knife.tall',
      'a blade over 600, from memory,',
      {
        blade: { diameter: 650 },
        arbor: { depth: 150, largestBlade: 650 },
        knife: { edgeRadius: 331, along: 0, up: 0, reach: 320 },
      },
      'advice',
      'HSE WIS16, from memory',
    ),
    gb('knife.fitted', 'ripping without a knife', { knife: null }, 'outside'),
    gb('knife.gap', 'no knife', { knife: null }, 'not-applicable'),
  ]);
});

describe('blade', () => {
  checkLimits([
    gb('blade.small', '180 on a bench for 300', smallBlade(180), 'within'),
    gb('blade.small', '179 on a bench for 300', smallBlade(179), 'outside'),
    gb(
      'blade.through',
      'a blade level with the stock',
      { job: { stock: { thickness: 90 } } },
      'outside',
    ),
    gb(
      'blade.through',
      'a blade 1 mm above the stock',
      { job: { stock: { thickness: 89 } } },
      'within',
    ),
    gb(
      'blade.through',
      'a blade below the top of a groove',
      { job: { cut: 'groove', stock: { thickness: 120 } } },
      'not-applicable',
    ),
    gb('under', 'an enclosed blade', { underGuard: 'enclosed' }, 'within', WIS16),
    gb('under', 'side plates alone', { underGuard: 'side-plates' }, 'outside', WIS16),
    gb('under', 'nothing under the table', { underGuard: 'none' }, 'outside', WIS16),
    gb('arbor.stop', 'a run-down of 10.0 s', { arbor: { runDown: 10 } }, 'within', WIS38),
    gb('arbor.stop', 'a run-down of 10.1 s', { arbor: { runDown: 10.1 } }, 'outside', WIS38),
  ]);
});

describe('guard, fence, table and stick', () => {
  checkLimits([
    // gullet roots at 186 mm from the axis, so 76 mm above the table at the top of the blade
    gb(
      'guard.gullets',
      'sides 76 above the table',
      { guard: { height: 80, sideDepth: 4 } },
      'within',
    ),
    gb(
      'guard.gullets',
      'sides 77 above the table',
      { guard: { height: 81, sideDepth: 4 } },
      'outside',
    ),
    gb(
      'guard.clearance',
      'a guard 20 above the stock, from memory,',
      { guard: { height: 70 } },
      'advice',
      'Woodworking Machines Regulations 1974 reg 16, from memory',
    ),
    gb('fence.overrun', 'a fence 18 past the teeth', { fence: { end: 18 - HALF_CHORD } }, 'within'),
    gb(
      'fence.overrun',
      'a fence 19 past the teeth',
      { fence: { end: 19 - HALF_CHORD } },
      'outside',
    ),
    gb('stick.length', 'a push stick of 450', { people: { pushStick: { length: 450 } } }, 'within'),
    gb(
      'stick.length',
      'a push stick of 400',
      { people: { pushStick: { length: 400 } } },
      'outside',
    ),
    gb(
      'stick.last',
      'the last 300 fed with it',
      { people: { pushStick: { usedForLast: 300 } } },
      'within',
    ),
    gb(
      'stick.last',
      'the last 299 fed with it',
      { people: { pushStick: { usedForLast: 299 } } },
      'outside',
    ),
    gb(
      'stick.last',
      'the whole of a 250 piece fed with it',
      { people: { pushStick: { usedForLast: 250 } }, job: { stock: { length: 250 } } },
      'within',
      "HSE circular saw bench page and a maker's manual",
    ),
    gb(
      'stick.last',
      'the last 200 of a 250 piece fed with it',
      { people: { pushStick: { usedForLast: 200 } }, job: { stock: { length: 250 } } },
      'outside',
      "HSE circular saw bench page and a maker's manual",
    ),
    gb(
      'table.outfeed',
      '1200 with a taker-off',
      { table: { outfeed: 1200 }, people: { takeOff: TAKE_OFF } },
      'within',
    ),
    gb(
      'table.outfeed',
      '1199 with a taker-off',
      { table: { outfeed: 1199 }, people: { takeOff: TAKE_OFF } },
      'outside',
    ),
    gb(
      'table.outfeed',
      '800 with nobody taking off',
      { table: { outfeed: 800 } },
      'not-applicable',
    ),
  ]);
});
