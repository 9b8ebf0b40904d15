import { describe, expect, it } from 'vitest';
import { stuckOn } from '../../src/components/people/stuck-on.ts';

type Attempt = Parameters<typeof stuckOn>[0][number];
const fault = (id: string) => ({ fault: id, title: id, critical: false, part: 'blade' });
const attempt = (missed: string[], found: string[] = []): Attempt =>
  ({ grade: { missed: missed.map(fault), found: found.map(fault) } }) as unknown as Attempt;

describe('a fault somebody is stuck on', () => {
  it.each([
    ['twice in a row is not stuck', [['a'], ['a']], []],
    ['three times in a row is', [['a'], ['a'], ['a']], ['a 3']],
    ['an attempt without it does not break the row', [['a'], [], ['a'], ['b'], ['a']], ['a 3']],
    ['the longest row first', [['a', 'b'], ['a', 'b'], ['a', 'b'], ['b']], ['b 4', 'a 3']],
  ])('%s', (_why, missed, expected) => {
    const found = stuckOn(missed.map((one) => attempt(one)));
    expect(found.map(({ fault, times }) => `${fault} ${times}`)).toEqual(expected);
  });

  it('is one no more once it was found, however often it was missed before', () => {
    const missed = attempt(['a']);
    expect(stuckOn([attempt([], ['a']), missed, missed, missed])).toEqual([]);
    expect(stuckOn([missed, attempt([], ['a']), missed, missed])).toEqual([]);
    expect(stuckOn([missed, missed, missed, attempt([], ['a'])])).toHaveLength(1);
  });

  it('passes over an attempt that has no grade', () => {
    const missed = attempt(['a']);
    expect(stuckOn([{ grade: null }, missed, missed, missed])).toHaveLength(1);
  });
});
