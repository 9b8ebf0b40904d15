import { describe, expect, it } from 'vitest';
import { gradeAttempt } from '../../src/assessment/index.ts';
import { sayCritical } from '../../src/attempts/say-critical.ts';
import type { Action, Bench } from '../../src/bench/index.ts';
import {
  loadBenches,
  loadFaultCatalogue,
  loadLimitSets,
  loadTasks,
} from '../../src/store/content-files.ts';

const sets = ['gb', 'practice'].map((id) => loadLimitSets().get(id)!);
const catalogue = loadFaultCatalogue();
const sound = loadBenches().get('practice-bench')!;
const hurried = loadBenches().get('would-you-start')!;
const task = loadTasks().get('would-you-start')!;

const grade = (start: Bench, actions: readonly Action[]) =>
  gradeAttempt({ task, start, actions, claims: [] }, { sets, catalogue });
const FEED: Action = { do: 'feed', stopped: null };
const START: Action = { do: 'start' };

describe('critical errors at a turning saw', () => {
  it('are none where a sound bench is started, fed, stopped, waited for and locked off', () => {
    const { critical, cuts } = grade(sound, [
      START,
      FEED,
      { do: 'stop' },
      { do: 'wait' },
      { do: 'isolate' },
      { do: 'try', part: 'knife' },
    ]);
    expect(critical).toEqual([]);
    expect(cuts.map(({ action, cut }) => [action, cut.outcome])).toEqual([[1, 'smooth']]);
  });

  it('count reaching in apart from the supply left on, and before it', () => {
    const { critical } = grade(sound, [
      { do: 'try', part: 'knife' },
      START,
      { do: 'try', part: 'knife' },
      { do: 'stop' },
      { do: 'try', part: 'guard' },
    ]);
    expect(critical).toEqual([
      { kind: 'while-turning', first: 2, times: 2 },
      { kind: 'not-isolated', first: 0, times: 1 },
    ]);
  });

  it('count a running saw cut off at the isolator by itself', () => {
    expect(grade(sound, [START, { do: 'isolate' }]).critical).toEqual([
      { kind: 'cut-off-running', first: 1, times: 1 },
    ]);
  });

  it('count every cut on a bench that is not fit, and name what stops it, each once', () => {
    const { critical, cuts } = grade(hurried, [START, FEED, FEED]);
    expect(cuts.map(({ cut }) => cut.outcome)).toEqual(['thrown', 'thrown']);
    const [faulty, inLine] = critical;
    expect(faulty).toMatchObject({ kind: 'fed-with-faults', first: 1, times: 2 });
    const named = faulty?.kind === 'fed-with-faults' ? faulty.faults : [];
    expect(named.map(({ id }) => id)).toContain('knife-missing');
    expect(named.every((fault) => fault.critical)).toBe(true);
    expect(inLine).toEqual({ kind: 'fed-in-line', first: 1, times: 2, who: ['operator'] });
  });

  it('do not count a feed that was refused', () => {
    const { critical, cuts } = grade(hurried, [FEED]);
    expect(critical).toEqual([]);
    expect(cuts).toEqual([]);
  });

  it('hold a cut against the bench as it was fed, not as it was given', () => {
    const high = { ...sound, guard: { ...sound.guard!, height: 110 } };
    const { critical } = grade(high, [
      { do: 'isolate' },
      { do: 'unlock', part: 'guard' },
      { do: 'set', setting: 'guard.height', to: 56 },
      { do: 'lock', part: 'guard' },
      { do: 'reconnect' },
      START,
      FEED,
    ]);
    expect(critical).toEqual([]);
    expect(grade(high, [START, FEED]).critical.map(({ kind }) => kind)).toEqual([
      'fed-with-faults',
    ]);
  });
});

describe('critical errors in words', () => {
  const say = (actions: readonly Action[], start = sound) => {
    const { critical, end } = grade(start, actions);
    return critical.map((error) => sayCritical(error, end)).join(' ');
  };
  it('tell what a turning blade does by its own count of teeth', () => {
    // 36 teeth at 3000 rpm: 1800 a second, 360 in the fifth of a second a hand needs (arithmetic)
    const said = say([START, { do: 'try', part: 'knife' }]);
    expect(said).toContain('once while the blade was turning. About 360 teeth pass');
  });
  it('name the faults and who stood in the strip', () => {
    const said = say([START, FEED, FEED], hurried);
    expect(said).toContain('2 times with something on it');
    expect(said.toLowerCase()).toContain('riving knife');
    expect(said).toContain('while the operator stood in the strip');
  });
  it('leave no place in a sentence empty', () => {
    const said = say([START, { do: 'isolate' }, { do: 'try', part: 'fence' }, FEED], hurried);
    expect(said).not.toMatch(/[{}]|undefined/);
    expect(said).toContain('Press stop, wait');
  });
});
