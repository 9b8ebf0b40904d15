import { describe, expect, it } from 'vitest';
import { cuttingOf } from '../../src/components/workings/cutting.ts';
import { noiseDayOf, plotHours } from '../../src/components/workings/day.ts';
import { CHOICES, FIELDS } from '../../src/components/workings/fields.ts';
import { reachOf } from '../../src/components/workings/reach.ts';
import { readAsked } from '../../src/components/workings/read-asked.ts';
import { knifeOnAndOff } from '../../src/components/workings/set-bench.ts';
import { stoppingOf, threeDrags } from '../../src/components/workings/stopping.ts';
import { throwingOf } from '../../src/components/workings/thrown.ts';
import { drawPlot, type PlotRequest } from '../../src/drawing/index.ts';
import { loadBenches } from '../../src/store/content-files.ts';
import { sayIn } from '../../src/words/say.ts';
import { everyElement, readXml } from '../drawing/read-svg.ts';
import { overlaps, textBoxes } from '../drawing/text-boxes.ts';
import { makeBench } from '../helpers/bench.ts';

/*
 * What the page of workings plots, against published figures and against sums written out here.
 * The test bench: 400 mm blade, 36 teeth, axis 110 mm down, 50 mm stock fed at 8 m/min, 3000 rpm.
 */
const bench = makeBench();
const everyBench = loadBenches();
const benches = new Map([['test', bench]]);
const ask = (fields: Record<string, string>, of: ReadonlyMap<string, typeof bench> = benches) =>
  readAsked(new URLSearchParams(fields), of);

/** The value of a curve at a point it was drawn through. */
function valueAt(request: PlotRequest | undefined, label: string, x: number): number {
  const points = request?.curves.find((curve) => curve.label === label)?.points ?? [];
  return points.find((point) => point !== null && Math.abs(point.x - x) < 1e-9)?.y ?? Number.NaN;
}
const titled = (plots: readonly PlotRequest[] = [], word: string) =>
  plots.find(({ title }) => title.startsWith(word));

describe('raising the blade', () => {
  const cutting = cuttingOf(bench, 30);
  const { raising } = cutting ?? {};
  const toDegrees = 180 / Math.PI;

  it.each([0, 10, 40, 80])('plots the geometry of a circle %d mm above the stock', (above) => {
    // circle geometry: a chord at height h under the top of a 200 mm radius; no source needed
    const depth = 200 - 50 - above;
    const [entry, exit] = [Math.acos((depth + 50) / 200), Math.acos(depth / 200)];
    const bite = 8000 / (3000 * 36);
    expect(valueAt(titled(raising, 'Entry'), 'Entry angle', above)).toBeCloseTo(
      entry * toDegrees,
      6,
    );
    expect(valueAt(titled(raising, 'Teeth'), 'Teeth in the cut', above)).toBeCloseTo(
      (36 * (exit - entry)) / (2 * Math.PI),
      6,
    );
    expect(valueAt(titled(raising, 'Chip'), 'Mean', above)).toBeCloseTo(
      (bite * 50) / (200 * (exit - entry)),
      9,
    );
    expect(valueAt(titled(raising, 'Push'), 'Push-back', above)).toBeCloseTo(
      (100 * (2 * depth + 50)) / 400,
      6,
    );
  });

  it('tells what one more millimetre does as the curve has it', () => {
    const plot = titled(raising, 'Entry');
    const rise = valueAt(plot, 'Entry angle', 40.5) - valueAt(plot, 'Entry angle', 39.5);
    expect(cutting?.perMm.entryAngle).toBeCloseTo(rise, 3);
  });
});

describe('feeding faster', () => {
  it('wants 1500 W for kc 30 N/mm2, kerf 4, stock 75, 10 m/min (P = kc b h v; trade formula)', () => {
    const { blade, arbor, job } = bench;
    const set = {
      ...bench,
      blade: { ...blade, kerf: 4 },
      arbor: { ...arbor, motorPower: 2200 },
      job: { ...job, fed: 10, stock: { ...job.stock, thickness: 75 } },
    };
    const power = titled(cuttingOf(set, 30)?.feeding, 'Power');
    expect(valueAt(power, 'Power wanted', 10)).toBeCloseTo(1500, 6);
    expect(power?.lines).toEqual([{ axis: 'y', at: 2200, label: 'Motor rating' }]);
  });

  it('puts the line of rubbing twice as high for a dull edge (common practice, no source)', () => {
    const at = (sharpness: 'sharp' | 'dull') => {
      const condition = { ...bench.blade.condition, sharpness };
      const set = { ...bench, blade: { ...bench.blade, condition } };
      return titled(cuttingOf(set, 30)?.feeding, 'Mean')?.lines?.[0]?.at;
    };
    expect(at('dull')).toBeCloseTo(2 * (at('sharp') ?? Number.NaN), 12);
  });
});

describe('a throw', () => {
  const { on, off } = knifeOnAndOff(bench, bench, 3.2);
  const throwing = throwingOf(on, off, 2);

  it('is never plotted faster than the rim, pi D n', () => {
    expect(throwing.rim).toBeCloseTo((Math.PI * 0.4 * 3000) / 60, 9);
    const points = throwing.plot.curves.flatMap((curve) => curve.points);
    for (const point of points) expect(point?.y).toBeLessThan(throwing.rim);
    expect(points.length).toBeGreaterThan(10);
  });

  it('shares the momentum of the blade, M / (M + 2 m) of the rim speed (derived, a disc seized at its rim)', () => {
    const blade = (7850 * Math.PI * (0.2 ** 2 - 0.015 ** 2) * 2.8) / 1000;
    const share = blade / (blade + 2 * throwing.mass);
    expect(throwing.off.thrown?.speed).toBeCloseTo(throwing.rim * share, 9);
    expect(throwing.plot.marks?.[0]?.y).toBeCloseTo(throwing.rim * share, 9);
  });

  it('is set beside 23.99 J/cm2 (Bir, Stewart and Wilhelm 2005) and 78.64 J (DDESB TP-12, quoted)', () => {
    const { thrown, harm } = throwing.off;
    expect(harm?.skin).toBeCloseTo((thrown?.density ?? Number.NaN) / 23.99, 9);
    expect(harm?.fragment).toBeCloseTo((thrown?.energy ?? Number.NaN) / 78.64, 9);
  });

  it('keeps the same strip with and without a knife, and whatever the kerf does', () => {
    const { strip } = throwingOf(on, off, 0);
    expect(strip).toEqual(throwing.strip);
    expect(strip).toEqual({ from: -2.1, to: 2.1 + bench.fence.face });
  });
});

describe('running down', () => {
  it('is drawn from full speed to standstill in the time of the bench where the drag is steady', () => {
    const [steady, ...others] = stoppingOf(bench, 10).plot.curves;
    expect(steady?.points[0]).toEqual({ x: 0, y: 3000 });
    expect(steady?.points[steady.points.length - 1]?.x).toBeCloseTo(8, 9);
    for (const { points } of others) expect(points[points.length - 1]?.x).toBeGreaterThan(8);
  });

  it('wants 1.73542 N m of a 400 x 2.8 blade for 10 s, 2725.99 J in it (maths oracle)', () => {
    const { energy, torqueAtLimit } = stoppingOf(bench, 10);
    expect(energy).toBeCloseTo(2725.99, 2);
    expect(torqueAtLimit).toBeCloseTo(1.73542, 5);
    expect(stoppingOf(bench, null).torqueAtLimit).toBeNull();
  });

  it('begins every law with the same drag', () => {
    const drags = threeDrags(0.05, 300, 12).map(({ drag }) => {
      const { steady, viscous = 0, windage = 0 } = { viscous: 0, windage: 0, ...drag };
      return steady + viscous * 300 + windage * 300 ** 2;
    });
    for (const drag of drags) expect(drag).toBeCloseTo((0.05 * 300) / 12, 9);
  });
});

describe('a day of noise', () => {
  const [uk, us] = plotHours().curves.map(({ label }) => label);

  it.each([
    [90, 8],
    [95, 4],
    [100, 2],
    [105, 1],
  ])('allows %d dB(A) for %d h on the US curve (29 CFR 1910.95 table G-16a)', (level, hours) => {
    expect(valueAt(plotHours(), us ?? '', level)).toBeCloseTo(hours, 9);
  });

  it('reaches 85 dB(A) at 97 dB in 30.29 minutes on the UK curve (maths oracle)', () => {
    expect(60 * valueAt(plotHours(), uk ?? '', 97)).toBeCloseTo(30.29, 2);
  });

  it('comes to 84.3 dB(A) for 1.5 h at 70, 5 h at 80.8, 1.5 h at 90.1 (worked example after ISO 9612)', () => {
    const asked = ask({
      ...{ level1: '70', hours1: '1.5', level2: '80.8', hours2: '5' },
      ...{ level3: '90.1', hours3: '1.5', level4: '', hours4: '' },
    });
    const day = noiseDayOf(asked?.worked?.bench ?? bench);
    expect(day?.exposure).toBeCloseTo(84.3, 1);
    expect(day?.stretches.length).toBe(3);
  });
});

describe('reach', () => {
  it('keeps a stick of 450 mm between hand and teeth at the end of the cut, and nothing without one', () => {
    const { plot, nearest } = reachOf(bench);
    const { pushStick } = bench.people;
    expect(valueAt(plot, 'With the push stick', 0)).toBe(pushStick?.length);
    expect(valueAt(plot, 'By hand alone', 0)).toBe(0);
    expect(nearest).toBe(Math.min(pushStick?.length ?? 0, pushStick?.usedForLast ?? 0));
  });
});

describe('what is asked of the page', () => {
  const problemsOf = (fields: Record<string, string>) => ask(fields)?.problems;

  it('is the bench itself where nothing is asked, for every bench on file', () => {
    const files = everyBench;
    expect(files.size).toBeGreaterThan(2);
    for (const [id, file] of files) {
      const asked = readAsked(new URLSearchParams({ bench: id }), files);
      expect(asked?.problems, id).toEqual([]);
      expect(asked?.worked?.bench.blade).toEqual(file.blade);
    }
  });

  it.each([
    ['height', 'abc', /^Blade height .*5 .*133/],
    ['height', '-5', /^Blade height .*5 .*133/],
    ['fed', '1e9', 'Feed must be a number from 0.5 to 60 m/min.'],
    ['light', '1,200', 'Light on the table must be a number from 0 to 100000 lx.'],
    ['motor', 'NaN', 'Motor rating must be a number from 50 to 100000 W.'],
    ['thickness', 'x'.repeat(5000), /^Stock thickness .*3 .*400/],
    ['knife', 'gone', 'Riving knife must be one of: on, off.'],
    ['hours1', '', /^Hours at level 1 must be a number from 0.01 to 24 hours/],
  ])('is refused for %s "%s" in one sentence, and kept as typed', (field, typed, message) => {
    const asked = ask({ [field]: typed, length: '777' });
    expect(asked?.worked).toBeNull();
    expect(asked?.problems.map((one) => one.field)).toEqual([field]);
    expect(asked?.problems[0]?.message).toMatch(message);
    expect(asked?.typed[field]).toBe(typed);
    expect(asked?.typed['length']).toBe('777');
  });

  it('keeps what was typed when the bench is not known', () => {
    expect(problemsOf({ bench: 'none' })).toEqual([
      { field: 'bench', message: 'Bench must be one of: test.' },
    ]);
    expect(ask({ bench: 'none', height: '77' })?.typed['height']).toBe('77');
  });

  it('sets the bench: blade, stock, motor, knife, fence, person', () => {
    const worked = ask({
      ...{ height: '3 1/2 in', thickness: '38', fed: '6,5', motor: '2200', knife: 'off' },
      ...{ toe: '-1', widthOfCut: '60', back: '900', left: '300', runDown: '12' },
    })?.worked?.bench;
    expect(worked?.arbor.depth).toBeCloseTo(200 - 88.9, 9);
    expect(worked?.arbor.motorPower).toBe(2200);
    expect(worked?.arbor.runDown).toBe(12);
    expect(worked?.knife).toBeNull();
    expect(worked?.fence.toe).toBe(-1);
    expect(worked?.job.fed).toBe(6.5);
    expect(worked?.job.stock.thickness).toBe(38);
    expect(worked?.people.operator).toMatchObject({ x: -900, z: -300 });
  });

  it('names every field with a range that holds its own usual figure', () => {
    for (const [id, field] of Object.entries(FIELDS)) {
      const own = field.own(bench);
      const [least, most] = field.range(bench);
      if (own === null) continue;
      expect(own, id).toBeGreaterThanOrEqual(least);
      expect(own, id).toBeLessThanOrEqual(most);
    }
    expect(Object.keys(CHOICES)).toEqual(['knife', 'stick', 'wood']);
  });
});

it.each([...everyBench])('says every plot of %s in German, with room for its words', (id, one) => {
  const [say, inEnglish] = [sayIn('de'), sayIn('en')];
  const { on, off } = knifeOnAndOff(one, one, 3);
  const plotsIn = (speaker: typeof say) => {
    const cutting = cuttingOf(one, 30, speaker);
    return [
      ...(cutting?.raising ?? []),
      ...(cutting?.feeding ?? []),
      throwingOf(on, off, 2, speaker).plot,
      reachOf(one, speaker).plot,
      stoppingOf(one, 10, speaker).plot,
      plotHours(speaker),
    ];
  };
  const english = plotsIn(inEnglish);
  for (const [i, request] of plotsIn(say).entries()) {
    expect(request.title).not.toBe(english[i]?.title);
    expect(request.description).not.toBe(english[i]?.description);
    const svg = readXml(drawPlot(request));
    for (const unit of ['mm', 'inch'] as const) {
      expect(overlaps(textBoxes(svg, unit)), `${id}, ${request.title}`).toEqual([]);
    }
  }
});

// a test for each bench, so that the time for one does not shrink as benches are added
it.each([...everyBench])(
  'names every curve, mark and line of every plot of %s, and lets no words cover others',
  (id, one) => {
    const missing: string[] = [];
    for (const fields of [{}, { height: '30', thickness: '20' }, { fed: '25', motor: '1100' }]) {
      const worked = ask({ bench: id, ...fields }, everyBench)?.worked?.bench ?? one;
      const { on, off } = knifeOnAndOff(worked, one, 3);
      const cutting = cuttingOf(worked, 30);
      const plots = [
        ...(cutting?.raising ?? []),
        ...(cutting?.feeding ?? []),
        throwingOf(on, off, 2).plot,
        reachOf(worked).plot,
        stoppingOf(worked, 10).plot,
        plotHours(),
      ];
      for (const request of plots) {
        const svg = readXml(drawPlot(request));
        const texts = everyElement(svg).filter(({ name }) => name === 'text');
        const { curves, marks = [], lines = [] } = request;
        for (const { label } of [...curves, ...marks, ...lines]) {
          if (!texts.some(({ text }) => text === label))
            missing.push(`${id}, ${request.title}: ${String(label)}`);
        }
        for (const unit of ['mm', 'inch'] as const) {
          missing.push(
            ...overlaps(textBoxes(svg, unit)).map((pair) => `${id}, ${request.title}: ${pair}`),
          );
        }
      }
    }
    expect(missing).toEqual([]);
  },
);
