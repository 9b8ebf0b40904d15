import { describe, expect, test } from 'vitest';
import { LONGEST_FILE, readQuestion, uncertaintyOf } from '../../src/pages/_rules/read-question.ts';
import { loadBenches } from '../../src/store/content-files.ts';
import { makeBenchFile } from '../helpers/bench.ts';
import { SETS } from '../helpers/rules.ts';

const benches = loadBenches();
const known = { sets: SETS, benches, usual: ['gb', 'eu'] };
const ask = (query: string) => readQuestion(new URLSearchParams(query), known);

function post(fields: Record<string, string | string[]>) {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) {
    for (const one of [value].flat()) form.append(name, one);
  }
  return readQuestion(form, known);
}

describe('what is asked of one bench under other rules', () => {
  test('without anything chosen: the first bench under the usual sets', () => {
    const { question, subject, problem } = ask('');
    expect(problem).toBeNull();
    expect(question).toMatchObject({ bench: [...benches.keys()][0], known: 'exactly' });
    expect(question.sets.map(({ id }) => id)).toEqual(['gb', 'eu']);
    expect(subject?.bench).toBe(benches.get(question.bench));
  });

  test('a bench, sets in the order chosen, and how well it is known', () => {
    const { question, subject } = ask('bench=practice-bench&set=jp&set=gb&known=rule');
    expect(question.sets.map(({ id }) => id)).toEqual(['jp', 'gb']);
    expect(uncertaintyOf(question.known)).toBe(0.5);
    expect(subject?.name).toBe('Practice bench');
    expect(uncertaintyOf('exactly')).toBe(0);
  });

  test('a pasted bench, JSON or YAML, with the sets chosen before', () => {
    const file = JSON.stringify(makeBenchFile());
    const { question, subject, problem } = post({ file, set: ['gb', 'hk'] });
    expect(problem).toBeNull();
    expect(question).toMatchObject({ bench: '', file });
    expect(subject).toMatchObject({ name: 'Test bench' });
  });

  test.each<[string, ReturnType<typeof ask>, string, RegExp]>([
    [
      'a set that is not there',
      ask('set=mars&set=gb'),
      'set',
      /^There is no limit set named mars; choose from: .*gb/,
    ],
    ['one set', ask('set=gb'), 'set', /^Choose at least two limit sets/],
    [
      'a bench that is not there',
      ask('bench=mars'),
      'bench',
      /^There is no bench named mars; choose from: /,
    ],
    [
      'an instrument that is not there',
      ask('known=laser'),
      'known',
      /must be one of: exactly, rule, feeler, dial/,
    ],
    [
      'a bench name of a page',
      ask(`bench=${'x'.repeat(100)}`),
      'bench',
      /must be chosen from the list/,
    ],
    ['a hundred sets', ask('set=gb&'.repeat(100)), 'set', /must be chosen from the list/],
    [
      'a pasted slip',
      post({ file: 'blade: [' }),
      'file',
      /cannot be read as JSON or YAML at line 1: check quotes/,
    ],
    [
      'a pasted list',
      post({ file: '[1, 2]' }),
      'file',
      /^In the bench file, The bench file must be given, as a group of fields\.$/,
    ],
    [
      'a blade of ten metres',
      post({ file: JSON.stringify(makeBenchFile()).replace('"diameter":400', '"diameter":10000') }),
      'file',
      /^In the bench file, blade\.diameter must be a number from 50 to 2000 mm\.$/,
    ],
    [
      'a file too long',
      post({ file: 'x'.repeat(LONGEST_FILE + 1) }),
      'file',
      /must be at most 60000 characters/,
    ],
  ])('%s is one sentence beside its field', (_what, { subject, problem }, field, sentence) => {
    expect(subject).toBeNull();
    expect(problem?.field).toBe(field);
    expect(problem?.message).toMatch(sentence);
  });

  test('what was typed is given back with the problem', () => {
    expect(post({ file: 'blade: [', set: ['gb', 'jp'] }).question).toMatchObject({
      file: 'blade: [',
    });
  });
});
