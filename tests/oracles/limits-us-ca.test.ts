import { describe, expect, test } from 'vitest';
import { checkLimits, knifeAround, type LimitCase } from '../helpers/oracle-case.ts';
import { judgeOne } from '../helpers/rules.ts';

/** California Code of Regulations, Title 8, each at the limit and just past it. */

const HOOD = 'Title 8, 4300.1(a)(2)';
const FINGERS = 'Title 8, 4300.1(c)(1)';
const OFF = 'Title 8, 4300.1(b)';
const ca = (
  limit: string,
  says: string,
  bench: LimitCase['bench'],
  verdict: LimitCase['verdict'],
  source: string,
): LimitCase => ({ limit: `us-ca.${limit}`, says, bench, verdict, source });

/** stock is 50 mm thick */
const hood = (gap: number): LimitCase['bench'] => ({ guard: { height: 50 + gap } });

describe('hood, spreader and fingers', () => {
  checkLimits([
    ca('guard.clearance', 'a hood 6.3 mm above the stock', hood(6.3), 'within', HOOD),
    ca('guard.clearance', 'a hood 6.35 mm (1/4 in) above the stock', hood(6.35), 'within', HOOD),
    ca('guard.clearance', 'a hood 6.4 mm above the stock', hood(6.4), 'outside', HOOD),
    ca(
      'guard.clearance',
      'a hood that closes by itself',
      { guard: { kind: 'self-closing', height: 80 } },
      'not-applicable',
      HOOD,
    ),
    ca('knife.gap', 'a gap of 10', knifeAround(10), 'within', 'Title 8, 4296(j)'),
    ca('knife.gap', 'a gap of 12.7 (1/2 in)', knifeAround(12.7), 'within', 'Title 8, 4296(j)'),
    ca('knife.gap', 'a gap of 12.8', knifeAround(12.8), 'outside', 'Title 8, 4296(j)'),
    ca(
      'knife.thinner',
      'a spreader as thick as the kerf',
      { knife: { thickness: 4.2 } },
      'outside',
      'Title 8, 4296(i)',
    ),
    ca('guard.fingers', 'no fingers', { guard: { fingers: 'none' } }, 'outside', FINGERS),
    ca('guard.fingers', 'fingers fitted', { guard: { fingers: 'resting' } }, 'within', FINGERS),
    ca('knife.fitted', 'ripping with the knife off', { knife: null }, 'outside', OFF),
    ca(
      'knife.fitted',
      'crosscutting with the knife off',
      { knife: null, job: { cut: 'crosscut' } },
      'not-applicable',
      OFF,
    ),
    ca(
      'knife.fitted',
      'grooving with the knife off',
      { knife: null, job: { cut: 'groove' } },
      'not-applicable',
      OFF,
    ),
    ca(
      'knife.fitted',
      'rebating with the knife off',
      { knife: null, job: { cut: 'rebate' } },
      'not-applicable',
      OFF,
    ),
  ]);
});

test('the published quarter inch is held as 6.35 mm exactly [international inch of 1959, 25.4 mm]', () => {
  expect(judgeOne('us-ca.guard.clearance').max).toBeCloseTo(6.35, 12);
});
