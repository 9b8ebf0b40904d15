import { describe, expect, it } from 'vitest';
import { ageRuleFor, readAges, settleAge, yearsOn } from '../../src/competence/index.ts';
import { loadAges, loadLimitSets } from '../../src/store/content-files.ts';

const ages = loadAges('content');
const us = ages.get('us');
if (us === undefined) throw new Error('there is no rule for the United States');

describe('the rules on age', () => {
  it('name every published limit set once, and one stands for all others', () => {
    const named = [...ages.values()].flatMap(({ sets }) => sets).sort();
    expect(named).toEqual([...loadLimitSets('content', '/nowhere').keys()].sort());
    expect([...ages.values()].filter(({ otherwise }) => otherwise)).toHaveLength(1);
    expect(ageRuleFor(ages.values(), 'us-wa')?.id).toBe('us');
    expect(ageRuleFor(ages.values(), 'our-own')?.id).toBe('local-law');
  });

  // 29 CFR 570.55 and 570.65, seen in texts that restate it: 18 years for power-driven circular saws
  it('ask for 18 years in the United States, the day before, on and after the birthday', () => {
    const on = (day: string) => settleAge(us, { bornOn: '2008-03-10', on: day });
    expect(on('2026-03-09')).toBe('young-under-supervision');
    expect(on('2026-03-10')).toBe('old-enough');
    expect(on('2026-03-11')).toBe('old-enough');
    expect(settleAge({ ...us, younger: null }, { bornOn: '2008-03-10', on: '2026-03-09' })).toBe(
      'too-young',
    );
  });

  it('invent no age where none is known: whoever gives the authorisation is asked', () => {
    const other = ages.get('local-law');
    expect(other).toMatchObject({ least: null, source: null });
    expect(other && settleAge(other, { bornOn: '1990-01-01', on: '2026-03-09' })).toBe('ask');
  });

  it('count whole years, and from 1 March for somebody born on 29 February', () => {
    expect(yearsOn('2026-02-28', '2008-02-29')).toBe(17);
    expect(yearsOn('2026-03-01', '2008-02-29')).toBe(18);
    expect(yearsOn('2028-02-29', '2008-02-29')).toBe(20);
  });
});

describe('a file on age', () => {
  const file = {
    schema: 'ages/1',
    id: 'here',
    title: 'Here',
    sets: ['gb'],
    otherwise: false,
    least: 18,
    younger: null,
    ask: 'How old?',
    source: { document: 'A document', seen: 'primary' },
  };
  it('is read', () => {
    expect(readAges(file)).toMatchObject({ ok: true, rule: { least: 18 } });
  });
  it.each<[string, object, string]>([
    [
      'an age without a source',
      { source: null },
      'source must be given for an age and only for one',
    ],
    [
      'an age from memory',
      { source: { document: 'A', seen: 'memory' } },
      'source.seen must not be memory',
    ],
    ['an age of 5', { least: 5 }, 'least must be whole years from 10 to 99'],
    [
      'an exception from no age',
      { least: null, source: null, younger: { only: 'Yes.' } },
      'younger must be null where no age is known',
    ],
    ['another schema', { schema: 'ages/2' }, 'schema must be "ages/1"'],
  ])('with %s is refused in one sentence', (_, change, message) => {
    const read = readAges({ ...file, ...change });
    expect(read.ok ? '' : read.error.message).toContain(message);
  });
});
