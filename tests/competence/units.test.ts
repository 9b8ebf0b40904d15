import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readUnit, WORK_KINDS } from '../../src/competence/index.ts';
import { unitFor } from '../../src/competence/sheet/index.ts';
import { loadLimitSets, loadUnits } from '../../src/store/content-files.ts';

const units = [...loadUnits('content').values()].sort((a, b) => a.number - b.number);
const limits = [...loadLimitSets('content').values()].flatMap((set) => set.limits);

describe('the units', () => {
  it('are eight, numbered in the order of the course', () => {
    expect(units.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it.each(units.map((unit) => [unit.title, unit] as const))(
    '%s: every kind of work it belongs to leaves five to nine criteria, each one to be seen',
    (_, unit) => {
      for (const work of unit.work) {
        const { criteria } = unitFor(unit, work);
        expect(criteria.length).toBeGreaterThanOrEqual(5);
        expect(criteria.length).toBeLessThanOrEqual(9);
      }
      for (const { text } of [...unit.criteria, ...unit.stops]) {
        expect(text).toMatch(/^[A-Z].*\.$/);
        // what a person knows or understands cannot be seen; what they say, do or show can
        expect(text).not.toMatch(
          /\b(understands?|is aware|appreciates?|demonstrates? knowledge)\b/i,
        );
      }
    },
  );

  it('measure what some limit set speaks of; the gap beside the insert waits for one', () => {
    const spoken = new Set(limits.map(({ measure }) => measure));
    const measured = units.flatMap(({ settings }) =>
      settings.flatMap(({ gives }) => gives.map(({ measure }) => measure)),
    );
    expect(measured.filter((measure) => !spoken.has(measure))).toEqual(['insert.gapMax']);
  });

  it('name what stops the work in every unit that is done at the blade', () => {
    for (const unit of units) expect(unit.stops.length).toBeGreaterThan(0);
  });

  it('cover every kind of work with at least the setting-up, the running and the shutting down', () => {
    for (const work of WORK_KINDS) {
      const numbers = units.filter((unit) => unit.work.includes(work)).map(({ number }) => number);
      expect(numbers).toEqual(expect.arrayContaining([1, 2, 3, 4, 7, 8]));
      expect(numbers.some((number) => number === 5 || number === 6)).toBe(true);
    }
  });

  it('open their door with lessons and tests there are', () => {
    const here = ['content/lessons/en', 'content/blueprints', 'content/tasks']
      .flatMap((folder) => readdirSync(folder))
      .map((file) => file.replace(/\.\w+$/, ''));
    const named = units.flatMap(({ evidence }) => evidence.screen);
    expect(named.length).toBeGreaterThan(8);
    expect(named.filter((id) => !here.includes(id))).toEqual([]);
  });

  it('ask for one practical where a file says nothing of it', () => {
    const file = parse(readFileSync('content/units/5-rip-with-stick-and-take-off.yaml', 'utf8'));
    const { evidence: _, ...bare } = file;
    expect(readUnit(bare)).toMatchObject({
      ok: true,
      unit: { evidence: { since: 1, practicals: 1, days: 1, practice: null } },
    });
  });

  it('hold no wording of the published units they may be held against', () => {
    for (const file of readdirSync('content/units')) {
      const { heldAgainst } = parse(readFileSync(`content/units/${file}`, 'utf8'));
      for (const entry of heldAgainst) {
        expect(
          Object.keys(entry).every((key) => ['scheme', 'id', 'version', 'seen'].includes(key)),
        ).toBe(true);
      }
    }
  });
});

describe('a unit file', () => {
  const file = () =>
    parse(readFileSync('content/units/3-set-knife-and-guard.yaml', 'utf8')) as Record<
      string,
      never
    >;
  const message = (change: (value: Record<string, never>) => void) => {
    const value = file();
    change(value);
    const read = readUnit(value);
    return read.ok ? '' : read.error.message;
  };

  it.each<[string, (value: never) => void, string]>([
    [
      'a measure there is not',
      (v: { settings: { gives: { measure: string }[] }[] }) => {
        v.settings[0]!.gives[0]!.measure = 'knife.gap';
      },
      'settings[0].gives[0].measure must be the id of a bench measure',
    ],
    [
      'an instrument there is not',
      (v: { settings: { instruments: string[] }[] }) => {
        v.settings[0]!.instruments = ['thumb'];
      },
      'must be one of: rule, feeler, calliper, square',
    ],
    [
      'four criteria',
      (v: { criteria: unknown[] }) => {
        v.criteria = v.criteria.slice(0, 4);
      },
      'criteria must list 5 to 9 criteria',
    ],
    [
      'an id twice',
      (v: { criteria: { id: string }[] }) => {
        v.criteria[1]!.id = v.criteria[0]!.id;
      },
      'criteria must not use the id isolated-first twice',
    ],
    [
      'more days than practicals',
      (v: { evidence: { days: number } }) => {
        v.evidence.days = 3;
      },
      'evidence.days must not be more than practicals',
    ],
    [
      'no hours of practice',
      (v: { evidence: { practice: object } }) => {
        v.evidence.practice = { sessions: 3, hours: 0 };
      },
      'evidence.practice.hours must be a number of hours from 0.5 to 200',
    ],
    [
      'a range upside down',
      (v: { settings: { range: number[] }[] }) => {
        v.settings[0]!.range = [9, 1];
      },
      'settings[0].range must list the least reading first',
    ],
  ] as never)('with %s is refused in one sentence', (_, change, expected) => {
    expect(message(change as never)).toContain(expected);
  });
});
