import { describe } from 'vitest';
import { checkLimits, knifeAround, type LimitCase } from '../helpers/oracle-case.ts';

/** EN 1870-1 as a type-test report reproduces it, and EN 1837, each at the limit and just past it. */

const GAP = 'EN 1870-1:2007+A1:2009, 6.3 p';
const THICKNESS = 'EN 1870-1:2007+A1:2009, riving-knife clause a';
const eu = (
  limit: string,
  says: string,
  bench: LimitCase['bench'],
  verdict: LimitCase['verdict'],
  source: string,
): LimitCase => ({ limit: `eu.${limit}`, says, bench, verdict, source });

const thickness = (plate: number, knife: number, kerf: number): LimitCase['bench'] => ({
  blade: { plate, kerf },
  knife: { thickness: knife },
});

describe('riving knife', () => {
  checkLimits([
    eu('knife.gapMin', 'a gap of 3.0', knifeAround(3), 'within', GAP),
    eu('knife.gapMin', 'a gap of 2.9', knifeAround(2.9), 'outside', GAP),
    eu('knife.gapMax', 'a gap of 8.0', knifeAround(8), 'within', GAP),
    eu('knife.gapMax', 'a gap of 8.1', knifeAround(8.1), 'outside', GAP),
    eu('knife.gapMax', 'a gap of 10', knifeAround(10), 'outside', GAP),
    eu('knife.drop', 'a tip 2.0 down', knifeAround(5, 2), 'within', GAP),
    eu('knife.drop', 'a tip 2.1 down', knifeAround(5, 2.1), 'outside', GAP),
    eu('knife.drop', 'a tip 5 down', knifeAround(5, 5), 'outside', GAP),
    eu(
      'knife.thicker',
      'plate 2.0, knife 2.2, kerf 3.0 of the type test',
      thickness(2, 2.2, 3),
      'within',
      THICKNESS,
    ),
    eu(
      'knife.thinner',
      'plate 2.0, knife 2.2, kerf 3.0 of the type test',
      thickness(2, 2.2, 3),
      'within',
      THICKNESS,
    ),
    eu('knife.thicker', 'plate 2.0, knife 2.1', thickness(2, 2.1, 3), 'outside', THICKNESS),
    eu('knife.thinner', 'knife 3.0 in kerf 3.0', thickness(2, 3, 3), 'outside', THICKNESS),
  ]);
});

describe('blade, stick, stopping and light', () => {
  const speed = 'EN 1870-1:2007+A1:2009, 6.3 n';
  const stick = 'EN 1870-1:2007+A1:2009, push-stick clause';
  const stop = 'EN 1870-1:2007+A1:2009, stopping';
  const light = 'EN 1837:2020, 4.2';
  const { blade, run, lit } = {
    blade: (maxSpeed: number) => ({ blade: { maxSpeed }, arbor: { speed: 3000 } }),
    run: (runDown: number, runUp: number) => ({ arbor: { runDown, runUp } }),
    lit: (lx: number, uniformity: number) => ({ place: { light: lx, uniformity } }),
  };
  checkLimits([
    eu('blade.speed', 'a blade marked 3000 at 3000', blade(3000), 'within', speed),
    eu('blade.speed', 'a blade marked 2999 at 3000', blade(2999), 'outside', speed),
    eu(
      'stick.length',
      'a push stick of 400',
      { people: { pushStick: { length: 400 } } },
      'within',
      stick,
    ),
    eu(
      'stick.length',
      'a push stick of 399',
      { people: { pushStick: { length: 399 } } },
      'outside',
      stick,
    ),
    eu('arbor.stop', 'a run-down of 10.0 s', run(10, 5), 'within', stop),
    eu('arbor.stop', 'a run-down of 10.1 s', run(10.1, 5), 'outside', stop),
    eu('arbor.stop', 'a bench that starts in 12 s', run(11, 12), 'not-applicable', stop),
    eu(
      'arbor.stopSlow',
      'a bench that starts in 12 s, from memory,',
      run(13, 12),
      'advice',
      `${stop}, from memory`,
    ),
    eu(
      'groove.width',
      'a grooving tool of 20',
      { job: { cut: 'groove' }, blade: { kerf: 20 } },
      'within',
      'EN 1870-1:2007+A1:2009, 6.3 l',
    ),
    eu('light', '500 lx', lit(500, 0.7), 'within', light),
    eu('light', '499 lx', lit(499, 0.7), 'outside', light),
    eu('light.even', 'evenness 0.7', lit(500, 0.7), 'within', light),
    eu('light.even', 'evenness 0.69', lit(500, 0.69), 'outside', light),
  ]);
});
