import { describe, expect, it } from 'vitest';
import { readCheckList } from '../../src/competence/index.ts';
import { loadCheckLists, loadFaultCatalogue } from '../../src/store/content-files.ts';

const daily = () => {
  const list = loadCheckLists('content').get('daily');
  if (list === undefined) throw new Error('there is no daily list');
  return structuredClone(list);
};
const PARTS = [
  ...['blade', 'arbor', 'knife', 'guard', 'under-guard', 'insert', 'fence', 'table', 'controls'],
  ...['extraction', 'push-stick', 'place'],
];

describe('the daily check list', () => {
  it.each(PARTS)('looks at the %s', (part) => {
    expect(daily().checks.some((check) => check.part === part)).toBe(true);
  });

  it('names only faults that are in the catalogue', () => {
    const { byId } = loadFaultCatalogue('content');
    const named = daily().checks.flatMap(({ faults }) => faults);
    expect(named.length).toBeGreaterThan(40);
    expect(named.filter((id) => !byId.has(id))).toEqual([]);
  });

  it('asks for every critical fault of blade, knife and guards but those of the choice of blade and machine', () => {
    const named = new Set(daily().checks.flatMap(({ faults }) => faults));
    const critical = [...loadFaultCatalogue('content').byId.values()].filter(
      (fault) => fault.critical && ['blade', 'knife', 'guard', 'under-guard'].includes(fault.part),
    );
    expect(critical.length).toBeGreaterThan(5);
    const chosen = [
      ...['blade-too-large', 'blade-too-small', 'blade-too-low', 'overspeed'],
      ...['tool-not-for-hand-feed', 'guard-not-self-acting'],
    ];
    const open = critical.filter(({ id }) => !named.has(id) && !chosen.includes(id));
    expect(open.map(({ id }) => id)).toEqual([]);
  });

  const first = daily().checks[0];
  it.each([
    ['another schema', { schema: 'check-list/2' }, 'schema must be "check-list/1".'],
    ['no version', { version: 0 }, 'version'],
    ['no checks', { checks: [] }, 'checks must list at least one check.'],
    ['the same id twice', { checks: [first, first] }, 'must not use the id isolator twice'],
    [
      'a figure that is no measure',
      { checks: [{ ...first, figures: ['brake.time'] }] },
      'must be the id of a bench measure',
    ],
    [
      'a document that is common practice',
      { checks: [{ ...first, source: { document: 'A', seen: 'practice' } }] },
      'must name a document, or be seen: practice and name none',
    ],
  ])('refuses %s in one sentence', (_, over, sentence) => {
    const read = readCheckList({ ...daily(), ...over });
    expect(read.ok).toBe(false);
    expect(read.ok ? '' : read.error.message).toContain(sentence);
  });
});
