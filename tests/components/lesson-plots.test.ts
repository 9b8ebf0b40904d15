import { describe, expect, it } from 'vitest';
import { type Bench, isMeasureId, WORKINGS } from '../../src/bench/index.ts';
import {
  type AskedPlot,
  changeField,
  makePlot,
  READY_PLOTS,
} from '../../src/components/lesson/plots/index.ts';
import { drawPlot, tabulatePlot } from '../../src/drawing/index.ts';
import { loadBenches, loadLimitSets } from '../../src/store/content-files.ts';
import { EN } from '../../src/words/catalogue/en.ts';
import { sayIn } from '../../src/words/say.ts';

const bench = loadBenches().get('lesson-bench') as Bench;
const sets = loadLimitSets();
const say = sayIn('en');
const noisy: Bench = {
  ...bench,
  exposure: {
    noise: [
      { level: 70, hours: 6 },
      { level: 97, hours: 2 },
    ],
  },
};

const make = (asked: Partial<AskedPlot>, of: Bench = bench) =>
  makePlot(of, { title: 'A plot of this test', alt: 'What it says.', ...asked }, sets, say);
function plotOf(asked: Partial<AskedPlot>, of: Bench = bench) {
  const { shown, key } = make(asked, of);
  if (shown.kind !== 'plot') throw new Error('no plot');
  return { ...shown, key };
}

describe('a ready plot', () => {
  it.each(READY_PLOTS)('%s is drawn, with the title and the words of its writer', (show) => {
    const { shown } = make({ show }, noisy);
    const svg = shown.kind === 'drawn' ? shown.svg : drawPlot(shown.request);
    expect(svg).toContain('<title>A plot of this test</title>');
    expect(svg).toContain('<desc>What it says.</desc>');
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
    if (shown.kind === 'plot') {
      expect(tabulatePlot(shown.request, shown.by).rows.length).toBeGreaterThan(3);
    }
  });

  it('is refused where the bench gives it nothing to show', () => {
    const still = { ...bench, job: { ...bench.job, fed: 0 } };
    for (const show of ['entry-angle', 'power', 'chip', 'cut'])
      expect(() => make({ show }, still), show).toThrow(/nothing to show|no number/);
    expect(() => make({ show: 'noise-day' })).toThrow('has nothing to show');
  });

  // oracle: by hand, 97 dB(A) for 2 h over a day of 8 h is 97 + 10 log10(2/8)
  it('of the noise of a day takes the loudest level, and marks its hours', () => {
    const { request } = plotOf({ show: 'noise-day', limits: ['gb.noise.lower'] }, noisy);
    expect(request.marks?.[0]).toMatchObject({ x: 2, y: 97 + 10 * Math.log10(2 / 8) });
    expect(request.lines).toEqual([
      { axis: 'y', at: 80, label: 'Great Britain: less than 80 dB(A)' },
    ]);
  });
});

describe('a plot of a change', () => {
  it('works the bench out again for each value, and marks where it stands', () => {
    const asked = { change: 'arbor.depth', from: 80, to: 140, of: ['blade.projection'] };
    const { request, key } = plotOf(asked);
    const points = request.curves[0]?.points ?? [];
    expect(points.length).toBe(61);
    for (const point of points) expect(point?.y).toBeCloseTo(200 - (point?.x ?? 0), 9);
    expect(request.marks?.[0]).toMatchObject({ x: 110, y: 90 });
    expect(request.x).toEqual({ title: 'Arbor below the table', unit: 'mm' });
    expect(request.y).toMatchObject({ title: 'Blade above the table', unit: 'mm' });
    expect(key).toEqual([]);
  });

  it('numbers several curves, and names them in a key and in the table', () => {
    const asked = { change: 'knife.along', from: 0, to: 12, of: ['knife.gapMin', 'knife.gapMax'] };
    const { request, key } = plotOf(asked);
    expect(request.curves.map(({ label }) => label)).toEqual(['1', '2']);
    expect(key).toEqual([
      'Least gap from the teeth to the riving knife',
      'Greatest gap from the teeth to the riving knife',
    ]);
    expect(
      tabulatePlot(request)
        .columns.map(({ title }) => title)
        .slice(1),
    ).toEqual(key);
  });

  it('keeps the numbers of curves that lie together apart, so that 1 and 2 are not 12', () => {
    const of = ['knife.gapAtTable', 'knife.gapMax'];
    const { request } = plotOf({
      change: 'knife.along',
      from: 0,
      to: 14,
      of,
      limits: ['gb.knife.gap'],
    });
    const [one, two] = ['1', '2'].map((label) => {
      const [, x, y] =
        new RegExp(`<text class="word" x="([\\d.]+)" y="([\\d.]+)"[^>]*>${label}<`).exec(
          drawPlot(request),
        ) ?? [];
      return { x: Number(x), y: Number(y) };
    });
    if (one === undefined || two === undefined) throw new Error('a curve has no number');
    expect(Math.abs(one.x - two.x) > 28 || Math.abs(one.y - two.y) > 20).toBe(true);
  });

  it('draws published limits across, each end by its own words in either unit', () => {
    const along = { change: 'knife.along', from: 0, to: 12, of: 'knife.gapMin' };
    const { request } = plotOf({ ...along, limits: ['eu.knife.gapMin'] });
    expect(request.lines?.map(({ axis }) => axis)).toContain('y');
    expect(request.lines?.[0]?.label).toMatchObject({
      mm: expect.stringMatching(/^Europe \(EN 1870-1\): at least \d+ mm$/),
      inch: expect.stringMatching(/ in$/),
    });
    const upright = plotOf({ change: 'fence.face', from: 20, to: 300, of: 'strip.width' });
    expect(upright.request.lines).toEqual([]);
  });

  it('keeps a knife fixed to the frame where it is while the blade is raised', () => {
    const knife = {
      ...(bench.knife as NonNullable<Bench['knife']>),
      along: 20,
      carriedBy: 'frame' as const,
    };
    const raised = changeField({ ...bench, knife }, 'arbor.depth', 105);
    expect(raised?.knife?.up).toBe(knife.up - 5);
    expect(changeField(bench, 'arbor.depth', 105)?.knife?.up).toBe(bench.knife?.up);
  });

  it('lifts the pen where no fitter could put the bench together', () => {
    const { request } = plotOf({ change: 'blade.kerf', from: 2, to: 6, of: 'knife.underKerf' });
    const points = request.curves[0]?.points ?? [];
    expect(points[0]).toBeNull();
    expect(points[points.length - 1]?.y).toBeCloseTo(2.8, 9);
    expect(drawPlot(request)).not.toMatch(/NaN|undefined/);
  });

  it('takes teeth whole', () => {
    const { request } = plotOf({ change: 'blade.teeth', from: 20, to: 60, of: 'cut.feedPerTooth' });
    for (const point of request.curves[0]?.points ?? [])
      expect(Number.isInteger(point?.x)).toBe(true);
  });

  it('draws sums, named by their parts', () => {
    const asked = {
      change: 'job.stock.thickness',
      from: 10,
      to: 80,
      of: 'blade.projection - job.stock.thickness',
    };
    const { request, key } = plotOf(asked);
    expect([...key, request.y.title]).toContain('Blade above the table − Stock thickness');
    expect(request.curves[0]?.points[0]?.y).toBeCloseTo(80, 9);
  });

  it.each([
    [{ change: 'fence.toe', from: 2, to: 2, of: 'fence.toe' }, 'from to be less than to'],
    [{ change: 'fence.toe', from: -2, to: 2, of: [] }, 'names nothing to draw'],
    [{ change: 'fence.tow', from: -2, to: 2, of: 'fence.toe' }, 'no figure named fence.tow'],
    [{ change: 'knife.gapMin', from: 1, to: 2, of: 'fence.toe' }, 'no field of the bench file'],
    [{ change: 'fence.toe + 1', from: 1, to: 2, of: 'fence.toe' }, 'one field of the bench file'],
    [
      { change: 'fence.toe', from: -2, to: 2, of: ['fence.toe', 'cut.power'] },
      'mm and W on one axis',
    ],
    [{ change: 'fence.toe', from: 900, to: 950, of: 'fence.toe' }, 'has no values'],
    [{ change: 'fence.toe', of: 'fence.toe' }, 'two numbers'],
    [{}, 'Either show'],
    [{ show: 'cut', change: 'fence.toe' }, 'Either show'],
    [{ show: 'kut' }, 'There is no plot named kut'],
    [{ show: 'tip', limits: ['gb.noise.lower'] }, 'does not show noise.exposure'],
    [
      { change: 'fence.toe', from: -2, to: 2, of: 'fence.toe', limits: ['gb.noise.lower'] },
      'does not show noise.exposure',
    ],
    [{ show: 'run-down', limits: ['gb.nothing'] }, 'no limit named gb.nothing'],
  ] as [Partial<AskedPlot>, string][])('refuses %j in one sentence', (asked, why) => {
    expect(() => make(asked)).toThrow(why);
  });
});

describe('the names of figures', () => {
  it('are there for every working and every number of the benches', () => {
    const names = EN.figures as Record<string, string>;
    const full = {
      ...bench,
      blade: { ...bench.blade, bore: 30 },
      arbor: { ...bench.arbor, motorPower: 3000, collar: 100 },
    };
    const paths: string[] = [];
    const walk = (value: unknown, path: string) => {
      if (typeof value === 'number') paths.push(path);
      else if (typeof value === 'object' && value !== null)
        for (const [key, inner] of Object.entries(value))
          walk(inner, path === '' ? key : `${path}.${key}`);
    };
    for (const one of [full, ...loadBenches().values()]) walk(one, '');
    const named = [...new Set([...paths, ...Object.keys(WORKINGS)])].filter(
      (id) => !isMeasureId(id) && !/condition\.|exposure\.noise\./.test(id),
    );
    expect(named.length).toBeGreaterThan(60);
    expect(named.filter((id) => names[id] === undefined)).toEqual([]);
  });
});
