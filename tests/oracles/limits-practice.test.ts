import { describe, expect, test } from 'vitest';
import { saySource } from '../../src/limits/index.ts';
import { checkLimits, knifeAround, type LimitCase } from '../helpers/oracle-case.ts';
import { judgeOne, limitSet } from '../helpers/rules.ts';

/** Trade facts. All of them: common practice, no published source. */

const TRADE = 'common practice, no published source';
const trade = (
  limit: string,
  says: string,
  bench: LimitCase['bench'],
  verdict: LimitCase['verdict'],
): LimitCase => ({ limit: `practice.${limit}`, says, bench, verdict, source: TRADE });

const HALF_CHORD = Math.sqrt(200 ** 2 - 110 ** 2);
/** gullet roots at 186 mm from the axis */
const ROOT_CHORD = Math.sqrt(186 ** 2 - 110 ** 2);

describe('settings', () => {
  checkLimits([
    trade('knife.gap', 'half an inch', knifeAround(12.7), 'within'),
    trade('knife.gap', 'a hair over half an inch', knifeAround(12.75), 'outside'),
    trade('knife.drop', 'a tip just below the top', knifeAround(5, 0.5), 'within'),
    trade('knife.drop', 'a tip level with the top', knifeAround(5, 0), 'outside'),
    trade('knife.thicker', 'a knife for a thinner blade', { knife: { thickness: 2.6 } }, 'outside'),
    trade('knife.thinner', 'a knife for a thicker blade', { knife: { thickness: 4.5 } }, 'outside'),
    trade(
      'guard.leadFront',
      'two and a half inches',
      { guard: { front: -HALF_CHORD - 63.5 } },
      'within',
    ),
    trade('guard.leadFront', 'two inches', { guard: { front: -HALF_CHORD - 50.8 } }, 'outside'),
    trade(
      'guard.leadRear',
      'two and a half inches',
      { guard: { rear: HALF_CHORD + 63.5 } },
      'within',
    ),
    trade('guard.leadRear', 'two inches', { guard: { rear: HALF_CHORD + 50.8 } }, 'outside'),
    trade('guard.fingers', 'fingers tied up', { guard: { fingers: 'raised' } }, 'outside'),
    trade(
      'fence.end',
      'a fence that ends at the gullets',
      { fence: { end: -ROOT_CHORD } },
      'within',
    ),
    trade(
      'fence.end',
      'a fence 1 mm past the gullets',
      { fence: { end: 1 - ROOT_CHORD } },
      'outside',
    ),
    trade('fence.parallel', 'a parallel fence', { fence: { toe: 0 } }, 'within'),
    trade('fence.parallel', 'a fence that opens', { fence: { toe: 0.3 } }, 'within'),
    trade('fence.parallel', 'a fence that closes', { fence: { toe: -0.1 } }, 'outside'),
    trade(
      'long',
      'a piece that tips with nobody taking off',
      { job: { stock: { length: 2400 } } },
      'outside',
    ),
    trade('long', 'a piece that stays down', { job: { stock: { length: 2000 } } }, 'within'),
  ]);
});

test('no set grades the height of the blade, on which rules and trade disagree', () => {
  const measures = limitSet('practice').limits.map(({ measure }) => measure);
  expect(measures).not.toContain('blade.aboveStock');
  expect(measures).not.toContain('blade.projection');
});

test('every trade figure says that it has no published source', () => {
  for (const { source } of limitSet('practice').limits) expect(saySource(source)).toBe(TRADE);
  expect(judgeOne('practice.knife.gap').source.seen).toBe('practice');
});
