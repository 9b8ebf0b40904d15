import { describe, expect, it } from 'vitest';
import { compareSets } from '../../src/components/limits/compare-sets.ts';
import { sayWhen } from '../../src/components/limits/say-when.ts';
import { plainText } from '../../src/components/pieces.ts';
import { loadLimitSets } from '../../src/store/index.ts';
import { sayIn } from '../../src/words/say.ts';

const sets = [...loadLimitSets().values()];
const { rows, sources } = compareSets(sets);
const shown = rows.flatMap(({ cells }) => [...cells.values()].flat());
const figure = (id: string) => {
  const found = shown.find(({ limit }) => limit.id === id);
  return plainText(found?.figure ?? []);
};

describe('limit sets side by side', () => {
  it('shows every limit of every set once, each with its source', () => {
    const ids = sets.flatMap((set) => set.limits.map(({ id }) => id));
    expect(shown.map(({ limit }) => limit.id).sort()).toEqual(ids.sort());
    for (const { limit, source } of shown) {
      expect(sources[source - 1]).toEqual(limit.source);
    }
  });

  // figures as read: HSE circular saw bench page (8, 300); EN 1870-1 as quoted (3 to 8); Title 8 4296(j) (1/2 in)
  it.each([
    ['gb.knife.gap', 'at most 8 mm'],
    ['eu.knife.gapMin', 'at least 3 mm'],
    ['us-ca.knife.gap', 'at most 12.7 mm'],
    ['gb.knife.thicker', 'more than 0 mm'],
    ['gb.stick.last', 'at least the smaller of 300 mm and the length of the piece'],
    ['eu.arbor.stopSlow', 'at most the smaller of the run-up time and 30 s'],
    ['gb.guard.fitted', 'fitted'],
    ['gb.under', 'enclosed or extraction hood'],
  ])('says %s as "%s"', (id, text) => {
    expect(figure(id)).toBe(text);
  });

  it('marks where the sets differ, and only there', () => {
    const four = compareSets(
      sets.filter(({ id }) => ['gb', 'eu', 'us-ca', 'practice'].includes(id)),
    );
    const differs = (measure: string) => four.rows.find((row) => row.measure === measure)?.differs;
    expect(differs('stick.length')).toBe(true); // 450 and 400
    expect(differs('knife.underKerf')).toBe(false); // "thinner than the kerf" in all four
  });

  it('walks round the bench: blade first, whether a part is fitted before how it is set', () => {
    const order = rows.map(({ measure }) => measure);
    expect(order[0]).toMatch(/^blade/);
    expect(order.indexOf('knife')).toBeLessThan(order.indexOf('knife.gapMax'));
    expect(order.indexOf('knife.gapMax')).toBeLessThan(order.indexOf('guard'));
  });
});

describe('when a limit is in force', () => {
  it.each([
    [{ of: 'job.cut', oneOf: ['rip', 'deep'] }, 'For ripping or deep cutting'],
    [{ of: 'job.cut', noneOf: ['rebate', 'groove'] }, 'For every cut but rebating and grooving'],
    [{ of: 'blade.diameter', atMost: 600 }, 'When blade diameter is at most 600 mm'],
    [{ of: 'arbor.runUp', above: 10 }, 'When the run-up time is above 10 s'],
    [{ of: 'people.takeOff', missing: true }, 'Without someone to take off'],
    [
      {
        all: [
          { of: 'job.cut', is: 'rip' },
          { of: 'guard.kind', is: 'fixed' },
        ],
      },
      'For ripping, and the crown guard is set by hand',
    ],
  ])('says %j', (condition, text) => {
    expect(plainText(sayWhen(condition))).toBe(text);
  });

  it('has words for every condition of every set', () => {
    for (const { limit, when } of shown) {
      if (limit.when !== null)
        expect(plainText(when), limit.id).toMatch(/^(For|When|With|Without) /);
    }
  });
});

describe('limit sets in German', () => {
  const german = compareSets(sets, sayIn('de'));
  const cells = german.rows.flatMap(({ cells }) => [...cells.values()].flat());

  it.each([
    ['gb.knife.gap', 'höchstens 8 mm'],
    ['gb.stick.last', 'mindestens das Kleinere: 300 mm oder die Länge des Stücks'],
    ['gb.under', 'geschlossen oder Absaughaube'],
  ])('says %s as "%s"', (id, text) => {
    const found = cells.find(({ limit }) => limit.id === id);
    expect(plainText(found?.figure ?? [])).toBe(text);
  });

  it('says when a limit is in force, with no field of a bench file and no open place left', () => {
    const said = cells.flatMap(({ when }) => (when.length > 0 ? [plainText(when)] : []));
    expect(said.length).toBeGreaterThan(10);
    expect(said.filter((text) => !text.startsWith('Gilt'))).toEqual([]);
    const left = [...said, ...cells.map(({ figure }) => plainText(figure))];
    expect(
      left.filter((text) => /[{}]|[a-z]\.[a-z]|\b(with|without|when|is|or)\b/i.test(text)),
    ).toEqual([]);
  });

  it('has a German title for every row', () => {
    const english = new Set(rows.map(({ title }) => title));
    expect(german.rows.filter(({ title }) => english.has(title)).map(({ title }) => title)).toEqual(
      [],
    );
  });
});
