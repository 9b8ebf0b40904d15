import { describe, expect, it } from 'vitest';
import type { Action, Effect } from '../../src/bench/index.ts';
import { tellActions } from '../../src/components/attempt/say-action.ts';
import { plainText as words } from '../../src/components/pieces.ts';
import { sayIn } from '../../src/words/say.ts';

describe('telling what was done at the bench', () => {
  it('tells each act with what came of it', () => {
    const actions: Action[] = [
      { do: 'isolate' },
      { do: 'measure', with: 'feeler', at: 'knife-gap-at-table' },
    ];
    const reading: Effect = {
      kind: 'reading',
      at: 'knife-gap-at-table',
      with: 'feeler',
      value: 7.55,
      uncertainty: 0.05,
    };
    const told = tellActions(actions, [{ action: 1, effect: reading }]);
    expect(told.map(({ did }) => words(did))).toEqual([
      'Locked off the supply',
      'Measured teeth to riving knife, at the table, with feeler leaves',
    ]);
    expect(told[1]?.came.map(words)).toEqual(['It read 7.55 mm, within 0.05 mm']);
    expect(told.every(({ danger }) => danger === null)).toBe(true);
  });

  it('tells it in German, names with their capitals and lengths still lengths', () => {
    const told = tellActions(
      [
        { do: 'measure', with: 'feeler', at: 'knife-gap-at-table' },
        { do: 'set', setting: 'guard.height', to: 58.5 },
      ],
      [],
      { say: sayIn('de') },
    );
    expect(told.map(({ did }) => words(did))).toEqual([
      'Gemessen: Zähne bis Spaltkeil, am Tisch. Werkzeug: Fühlerlehre',
      'Unterkante der Schutzhaube über dem Tisch auf 58.5 mm gestellt',
    ]);
    expect(told[1]?.did).toContainEqual({ mm: 58.5 });
  });

  it('tells a setting pushed along in steps once, at the place it ended', () => {
    const to = (at: number): Action => ({ do: 'set', setting: 'guard.height', to: at });
    const told = tellActions([to(60), to(58), to(56), { do: 'lock', part: 'guard' }], []);
    expect(told).toHaveLength(2);
    expect(words(told[0]?.did ?? [])).toContain('56 mm');
  });

  it('keeps a danger that happened on the way', () => {
    const set = (to: number): Action => ({ do: 'set', setting: 'knife.along', to });
    const danger: Effect = { kind: 'not-isolated', action: 'set' };
    const told = tellActions(
      [set(1), set(2)],
      [
        { action: 0, effect: danger },
        { action: 0, effect: { kind: 'refused', because: 'locked', part: 'knife' } },
      ],
    );
    expect(told).toHaveLength(1);
    expect(told[0]?.danger).toBe('not-isolated');
    expect(told[0]?.came).toEqual([]);
  });

  it('keeps two settings apart', () => {
    const told = tellActions(
      [
        { do: 'set', setting: 'knife.along', to: 1 },
        { do: 'set', setting: 'knife.up', to: 1 },
      ],
      [],
    );
    expect(told).toHaveLength(2);
  });
});
