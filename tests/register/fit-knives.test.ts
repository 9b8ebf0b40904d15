import { describe, expect, it } from 'vitest';
import { readBench } from '../../src/bench/index.ts';
import { fitKnife } from '../../src/components/register/fit-knives.ts';
import { changesBetween, type Entry } from '../../src/components/register/machine-entries.ts';
import { readHeld, readHeldForm } from '../../src/pages/_desk/held-form.ts';
import { loadLimitSets } from '../../src/store/content-files.ts';
import { makeBenchFile } from '../helpers/bench.ts';

const read = readBench(makeBenchFile());
if (!read.ok) throw new Error(read.error.message);
const file = read.bench;
const stateOf = (
  set: string,
  [plate, kerf, thickness]: readonly [number, number, number],
  fits: [number, number] = [350, 400],
) => {
  const limits = loadLimitSets('content').get(set);
  if (limits === undefined) throw new Error(`there is no set ${set}`);
  const blade = { mark: 'B', diameter: 400, kerf, plate, teeth: 36, cut: 'rip' as const };
  return fitKnife(file, blade, { mark: 'K', thickness, fits }, limits).state;
};

describe('which riving knife goes with which blade', () => {
  // plate, kerf and knife in mm; the cases are those of the published limits beside them
  it.each([
    ['EN 1870-1 riving-knife clause: plate + 0.2 exactly', 'eu', [2, 3, 2.2], 'fits'],
    ['the same, a tenth below', 'eu', [2, 3, 2.1], 'thin'],
    ['HSE: thicker than the plate', 'gb', [2, 3, 2.1], 'fits'],
    ['HSE: as thick as the plate is not thicker', 'gb', [2.2, 3.2, 2.2], 'thin'],
    ['DGUV: as thick as the plate is allowed', 'de', [2.2, 3.2, 2.2], 'fits'],
    ['Notification 86 art 18: 1.1 of the plate exactly', 'jp', [3, 4.2, 3.3], 'fits'],
    ['HSE: as thick as the kerf is not thinner', 'gb', [2.2, 3.2, 3.2], 'thick'],
    ['a set that says nothing of it: within plate and kerf', 'hk', [2.2, 3.2, 2.6], 'fits'],
  ] as const)('%s', (_, set, sizes, state) => {
    expect(stateOf(set, sizes)).toBe(state);
  });

  it('is told apart from a knife made for other blades', () => {
    expect(stateOf('gb', [2.8, 4.2, 3.2], [250, 315])).toBe('size');
    expect(stateOf('gb', [2.8, 4.2, 3.2], [400, 450])).toBe('fits');
  });
});

describe('what an entry changed', () => {
  const entry: Entry = {
    ...{ bench: 'b', asset: 'AL-09', title: 'Bench 9', work: ['rip'], limits: 'gb', file },
    ...{ change: 'entry', blades: [], knives: [], documents: [] },
  };

  it('is told field by field, and why it was made is no change', () => {
    expect(changesBetween(entry, { ...entry, change: 'machine' })).toEqual([]);
    const arbor = { ...file.arbor, runDown: file.arbor.runDown + 1 };
    expect(
      changesBetween(entry, { ...entry, work: ['rip', 'bevel'], file: { ...file, arbor } }),
    ).toEqual([
      { path: 'work', before: 'rip', after: 'rip, bevel' },
      {
        path: 'file.arbor.runDown',
        before: String(file.arbor.runDown),
        after: String(file.arbor.runDown + 1),
      },
    ]);
  });

  it('tells what went as well as what came', () => {
    const held = { ...entry, documents: [{ title: 'Manual', where: 'Shelf' }] };
    expect(changesBetween(held, entry).map(({ after }) => after)).toEqual([null, null]);
    expect(changesBetween(entry, held).map(({ before }) => before)).toEqual([null, null]);
  });
});

describe('rows of blades and knives on the form', () => {
  const formOf = (rows: readonly (readonly [string, string])[]) => {
    const form = new FormData();
    for (const [name, value] of rows) form.append(name, value);
    return readHeld(readHeldForm({ all: (name) => form.getAll(name).map(String) }));
  };
  const blade = (over: Readonly<Record<string, string>> = {}) =>
    Object.entries({
      ...{ mark: 'R', diameter: '400', kerf: '4,2', plate: '2.8', teeth: '36', cut: 'rip' },
      ...over,
    }).map(([name, value]) => [`blades-${name}`, value] as const);

  it('leaves empty rows out and reads a comma', () => {
    const empty = blade({ mark: '', diameter: '', kerf: '', plate: '', teeth: '' });
    expect(formOf([...empty, ...blade()])).toMatchObject({
      ok: true,
      value: { blades: [{ mark: 'R', kerf: 4.2, plate: 2.8, teeth: 36 }] },
    });
  });

  it.each([
    [
      'a diameter out of range',
      { diameter: '2001' },
      'Blade 1: the diameter must be 50 to 2000 mm.',
    ],
    ['half a tooth', { teeth: '36.5' }, 'Blade 1: the teeth must be a whole number from 2 to 400.'],
    ['no mark', { mark: '' }, 'Blade 1: the mark must be 1 to 40 characters.'],
    ['words for a figure', { kerf: 'wide' }, 'Blade 1: the kerf must be 0.3 to 20 mm.'],
    [
      'a plate as wide as the kerf',
      { plate: '4.2' },
      'Blade 1: the kerf must be wider than the plate.',
    ],
    ['a cut there is not', { cut: 'curve' }, 'Blade 1: choose ripping, crosscutting or both.'],
  ])('refuses %s with its row', (_, over, message) => {
    expect(formOf(blade(over))).toMatchObject({ ok: false, status: 400, path: 'blades', message });
  });
});
