import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Bench,
  digitsFor,
  findFigure,
  measureBench,
  rimSpeed,
  WORKINGS,
} from '../../src/bench/index.ts';
import { loadBenches } from '../../src/store/content-files.ts';

const bench = loadBenches().get('lesson-bench') as Bench;

describe('a figure of a bench', () => {
  it('is a measure, a field or a working, with its unit', () => {
    expect(findFigure(bench, 'knife.gapMax')).toEqual({
      value: measureBench(bench)['knife.gapMax'],
      unit: 'mm',
    });
    expect(findFigure(bench, 'blade.kerf')).toEqual({ value: bench.blade.kerf, unit: 'mm' });
    expect(findFigure(bench, 'arbor.speed').unit).toBe('rpm');
    expect(findFigure(bench, 'people.pushStick.length').unit).toBe('mm');
    expect(findFigure(bench, 'blade.energy').unit).toBe('J');
  });

  it.each([
    'knife.gapp',
    'place.floor',
    'guard.kind',
    'guard.coversGullets',
    'blade',
    'toString',
    'blade.condition.cracks.0.length',
  ])('is not %s, which no sentence can show as a number', (id) => {
    expect(() => findFigure(bench, id)).toThrow(/figure/);
  });

  // oracle: Control of Noise at Work Regulations 2005 and the HSE table of points, 100 for 8 h at 85 dB(A)
  it('adds the noise of a day up in points', () => {
    const pointsOf = (noise: { level: number; hours: number }[]) =>
      findFigure({ ...bench, exposure: { noise } }, 'noise.points').value;
    expect(pointsOf([{ level: 85, hours: 8 }])).toBeCloseTo(100, 9);
    const day = [
      { level: 97, hours: 0.5 },
      { level: 80, hours: 7.5 },
    ];
    expect(85 + 10 * Math.log10(pointsOf(day) / 100)).toBeCloseTo(86.1, 2);
    expect(() => findFigure(bench, 'noise.points')).toThrow('no number');
  });

  it('is refused where the part has been taken off', () => {
    expect(() => findFigure({ ...bench, knife: null }, 'knife.gapMax')).toThrow('no number');
    const away = { ...bench.people.operator, x: 100 };
    const beside = { ...bench, people: { ...bench.people, operator: away } };
    expect(() => findFigure(beside, 'throw.arrival')).toThrow('no number');
    const still = { ...bench, job: { ...bench.job, fed: 0 } };
    expect(() => findFigure(still, 'cut.power')).toThrow('no number');
  });

  // oracle: the schema itself, whose refusal of a wrong value names the unit a field is in
  it('has the unit that the schema of the bench file gives the field', async () => {
    const { BenchSchema } = await import('../../src/bench/index.ts');
    const optional = {
      ...bench,
      arbor: { ...bench.arbor, motorPower: 3000, collar: 100 },
      place: { ...bench.place, lightAround: 300, uniformityAround: 0.5 },
      exposure: {
        peak: 120,
        protection: 20,
        dust: { level: 1, respirable: 0.5, wood: 'softwood' },
      },
    } as unknown as Bench;
    const paths: string[] = [];
    const walk = (value: unknown, path: string) => {
      if (typeof value === 'number') paths.push(path);
      else if (typeof value === 'object' && value !== null && !Array.isArray(value))
        for (const [key, inner] of Object.entries(value))
          walk(inner, path === '' ? key : `${path}.${key}`);
    };
    walk(optional, '');
    expect(paths.length).toBeGreaterThan(50);
    const units: Record<string, string> = { degrees: 'deg', '': '1' };
    for (const path of paths) {
      const keys = path.split('.');
      const broken = structuredClone(optional) as unknown as Record<string, unknown>;
      const last = keys
        .slice(0, -1)
        .reduce((inner, key) => inner[key] as Record<string, unknown>, broken);
      last[keys[keys.length - 1] as string] = 'none';
      const said =
        BenchSchema.safeParse(broken).error?.issues.find((one) => one.path.join('.') === path)
          ?.message ?? '';
      const unit = /from \S+ to \S+ ?(.*)$/.exec(said)?.[1] ?? '?';
      const own = findFigureOrField(optional, path);
      expect(own === 'count' || own === 'years' ? '1' : own, `${path}: ${said}`).toBe(
        units[unit] ?? unit,
      );
    }
  });
});

/** Measures of the same name come first, and have the same unit. */
const findFigureOrField = (of: Bench, path: string) => findFigure(of, path).unit;

describe('a sum of figures', () => {
  it('is worked out as it is written', () => {
    const near = (of: string, value: number) =>
      expect(findFigure(bench, of).value, of).toBeCloseTo(value, 9);
    near('blade.kerf - knife.thickness', 1);
    near('(blade.kerf - knife.thickness) / 2', 0.5);
    near('blade.diameter / 2 - arbor.depth', measureBench(bench)['blade.projection'] as number);
    near('-fence.end', 155);
    near('blade.kerf - blade.plate - 0.2 * blade.plate', 4.2 - 2.8 - 0.56);
    near('blade.kerf * blade.plate / blade.plate', 4.2);
  });

  it('has the unit that comes of its figures', () => {
    expect(findFigure(bench, 'blade.kerf / blade.plate').unit).toBe('1');
    expect(findFigure(bench, '2 * arbor.runDown').unit).toBe('s');
    expect(findFigure(bench, 'blade.teeth - 4')).toEqual({ value: 32, unit: '1' });
    expect(findFigure(bench, 'blade.kerf * blade.plate / blade.diameter').unit).toBe('mm');
  });

  // oracle: the arithmetic of the language itself
  it('comes to what plain arithmetic comes to', () => {
    const number = fc.double({ min: 0.1, max: 99, noNaN: true }).map((value) => value.toFixed(2));
    const leaf = fc.oneof(number, fc.constantFrom('blade.teeth', 'blade.sizeRatio'));
    const sign = fc.constantFrom('+', '-', '*', '/');
    const { tree } = fc.letrec<{ tree: string }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 5, withCrossShrink: true },
        leaf,
        fc
          .tuple(tie('tree'), sign, tie('tree'))
          .map(([one, by, other]) => `(${one} ${by} ${other})`),
        fc.tuple(tie('tree'), sign, tie('tree')).map(([one, by, other]) => `${one} ${by} ${other}`),
        tie('tree').map((inner) => `-(${inner})`),
      ),
    }));
    const ratio = measureBench(bench)['blade.sizeRatio'] as number;
    fc.assert(
      fc.property(tree, (sum) => {
        const plain = sum.replaceAll('blade.teeth', '36').replaceAll('blade.sizeRatio', `${ratio}`);
        const expected = new Function(`return ${plain}`)() as number;
        fc.pre(Number.isFinite(expected) && Math.abs(expected) < 1e9);
        const own = findFigure(bench, `blade.teeth * 0 + ${sum}`).value;
        expect(Math.abs(own - expected)).toBeLessThanOrEqual(
          1e-9 * Math.max(1, Math.abs(expected)),
        );
      }),
      { seed: 6, numRuns: 400 },
    );
  });

  it.each([
    ['blade.kerf + arbor.runDown', /mm and s cannot be added/],
    ['blade.kerf - 2', /mm and a plain number cannot be taken/],
    ['blade.kerf * blade.plate', /comes to mm\^2, which is no unit/],
    ['blade.diameter / arbor.runDown', /comes to mm s\^-1/],
    ['blade.kerf -', /something is missing at its end/],
    ['(blade.kerf', /a bracket is not closed/],
    ['blade.kerf knife.thickness', /a sign is missing before "knife.thickness"/],
    ['blade.kerf * / 2', /a figure is missing before "\/"/],
    ['blade.kerf ^ 2', /cannot be read from "\^ 2"/],
    ['blade.kerf / (2 - 2)', /divided by nothing/],
    ['blade.kerf - blade.nonsense', /no figure named blade.nonsense/],
    ['2 + 2', /names no figure/],
    ['', /something is missing/],
    [`${'('.repeat(60)}blade.kerf${')'.repeat(60)}`, /more than 40 brackets/],
  ])('refuses %s in one sentence', (sum, why) => {
    expect(() => findFigure(bench, sum)).toThrow(why);
  });

  it('never fails but in a sentence, whatever is written', () => {
    const piece = fc.constantFrom(
      'blade.kerf',
      'x',
      '2',
      '(',
      ')',
      '+',
      '-',
      '*',
      '/',
      ' ',
      '.',
      '{',
      '1e9',
      '..',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        try {
          expect(Number.isFinite(findFigure(bench, pieces.join('')).value)).toBe(true);
        } catch (error) {
          expect((error as Error).message).toMatch(/^(The|There) .*\.$/);
        }
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});

describe('the workings', () => {
  it('all come to a number on the bench of the lessons', () => {
    const noisy: Bench = { ...bench, exposure: { noise: [{ level: 97, hours: 0.5 }] } };
    for (const id of Object.keys(WORKINGS)) {
      expect(Number.isFinite(findFigure(noisy, id).value), id).toBe(true);
    }
  });

  it('never throw a piece faster than the rim', () => {
    expect(findFigure(bench, 'throw.speed').value).toBeLessThanOrEqual(
      rimSpeed(bench.blade.diameter, bench.arbor.speed),
    );
  });

  // oracle: by hand, steel of 7850 kg/m3, a disc of 400 x 2.8 with a bore of 30 mm at 3000 rpm
  it('know the weight of the blade, what turns in it, and what stops it', () => {
    const mass = 7850 * Math.PI * (0.2 ** 2 - 0.015 ** 2) * 0.0028;
    const inertia = (mass * (0.2 ** 2 + 0.015 ** 2)) / 2;
    const turns = 100 * Math.PI;
    expect(findFigure(bench, 'blade.mass').value).toBeCloseTo(mass, 9);
    expect(findFigure(bench, 'blade.energy').value).toBeCloseTo((inertia * turns ** 2) / 2, 6);
    expect(findFigure(bench, 'stop.torque').value).toBeCloseTo((inertia * turns) / 8, 9);
  });

  // oracle: circle geometry by hand, R 200, axis 110 below the table, stock 50
  it('know where a tooth goes in and out, and how far it goes', () => {
    const [entry, exit] = [Math.acos(160 / 200), Math.acos(110 / 200)];
    expect(findFigure(bench, 'cut.entryAngle').value).toBeCloseTo((entry * 180) / Math.PI, 9);
    expect(findFigure(bench, 'cut.exitAngle').value).toBeCloseTo((exit * 180) / Math.PI, 9);
    expect(findFigure(bench, 'cut.arc').value).toBeCloseTo(200 * (exit - entry), 9);
    const bite = 8000 / (3000 * 36);
    expect(findFigure(bench, 'cut.feedPerTooth').value).toBeCloseTo(bite, 12);
    expect(findFigure(bench, 'cut.chipExit').value).toBeCloseTo(bite * Math.sin(exit), 12);
    expect(findFigure(bench, 'cut.pushBack').value).toBeCloseTo((100 * (160 + 110)) / 400, 9);
  });

  // oracle: by hand, a strip from half the kerf left of the blade to the fence, a trunk of 400 mm
  it('know the strip to keep clear and whether the body is in it', () => {
    expect(findFigure(bench, 'strip.width').value).toBeCloseTo(4.2 + 120, 9);
    expect(findFigure(bench, 'strip.clearBy').value).toBeCloseTo(250 - 200 - 2.1, 9);
  });
});

describe('decimals', () => {
  it('are one for what is measured, more for what is small', () => {
    for (const [value, digits] of [
      [4.2, 1],
      [154.93, 1],
      [0.074, 3],
      [0.25, 2],
      [0, 1],
      [-0.074, 3],
      [1e-9, 3],
    ] as const)
      expect(digitsFor(value), String(value)).toBe(digits);
  });
});
