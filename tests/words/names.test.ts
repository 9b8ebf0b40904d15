import { expect, it } from 'vitest';
import limitTitles from '../../content/messages/en/limit-titles.json';
import taskWords from '../../content/messages/en/task-words.json';
import { PART_TITLES } from '../../src/attempts/index.ts';
import { INSTRUMENTS, MEASURES, MEASURING_POINTS } from '../../src/bench/index.ts';
import { nameState, nameWork, sayDay, WORK_KINDS } from '../../src/competence/index.ts';
import { drawingWords } from '../../src/components/lesson/drawing-words.ts';
import { ENGLISH } from '../../src/drawing/index.ts';
import { REMEDIES, SAY_SEEN } from '../../src/limits/index.ts';
import { loadLimitSets, loadTasks } from '../../src/store/content-files.ts';
import { dayIn, drawnIn, figuresIn } from '../../src/words/index.ts';
import { sayIn } from '../../src/words/say.ts';

const say = sayIn('en');

it('calls every measure, kind of work, state and way of seeing as the engine does', () => {
  const lost = Object.entries(MEASURES).filter(
    ([id, { title }]) => say.maybe(`names.measure.${id}`, '') !== title,
  );
  expect(lost).toEqual([]);
  for (const work of WORK_KINDS) expect(say(`names.work.${work}`)).toBe(nameWork(work));
  for (const state of ['signed-off', 'in-part', 'not-yet', 'ended', 'withdrawn'] as const) {
    expect(say(`names.state.${state}`)).toBe(nameState(state));
  }
  for (const [seen, words] of Object.entries(SAY_SEEN)) {
    expect(say.maybe(`names.seen.${seen}`, '')).toBe(words);
  }
});

it('calls every place to measure, tool and word of a drawing as the engine does', () => {
  for (const [id, { title }] of Object.entries(MEASURING_POINTS)) {
    expect(say.maybe(`names.at.${id}`, '')).toBe(title);
  }
  for (const [id, { title }] of Object.entries(INSTRUMENTS)) {
    expect(say.maybe(`names.with.${id}`, '')).toBe(title);
  }
  expect(drawingWords(say)).toEqual(ENGLISH);
  const german = drawingWords(sayIn('de'));
  const same = Object.entries(german).filter(([key, word]) => ENGLISH[key as 'feed'] === word);
  expect(same).toEqual([]);
});

it('says a day as the records do, and in German as German does', () => {
  for (const day of ['2026-03-03', '2024-02-29T23:59:59.999Z', '1999-12-31']) {
    expect(dayIn('en', day)).toBe(sayDay(day));
  }
  expect(dayIn('de', '2029-03-03')).toBe('3. März 2029');
  expect(dayIn('de', 'never')).toBe('never');
});

it('writes a decimal comma in German, in words and not in geometry', () => {
  expect(figuresIn('de', '7.5 mm, 62.83 m/s. 3 of 4.')).toBe('7,5 mm, 62,83 m/s. 3 of 4.');
  expect(figuresIn('en', '7.5 mm')).toBe('7.5 mm');
  expect(drawnIn('de', '<path d="M1.5 2.5"/><text x="1.5">7.5 mm</text>')).toBe(
    '<path d="M1.5 2.5"/><text x="1.5">7,5 mm</text>',
  );
});

it('calls every limit set, and each limit it names, as the set itself does', () => {
  const sets = [...loadLimitSets().values()];
  for (const { id, title, caution } of sets) {
    expect(say.maybe(`rule-sets.title.${id}`, '')).toBe(title);
    expect(say.maybe(`rule-sets.caution.${id}`, '')).toBe(caution);
  }
  const titles = new Map(sets.flatMap(({ limits }) => limits.map(({ id, title }) => [id, title])));
  for (const [id, title] of Object.entries(limitTitles)) expect(titles.get(id)).toBe(title);
});

it('tells a task as the task itself does', () => {
  for (const [key, words] of Object.entries(taskWords)) {
    const [id = '', field] = key.split('.');
    const task = loadTasks().get(id);
    expect(field === 'title' ? task?.title : task?.brief).toBe(words);
  }
});

it('calls every part a fault can be on, and everything to do about it, as the catalogue does', () => {
  for (const [part, title] of Object.entries(PART_TITLES)) {
    expect(say.maybe(`fault-words.part.${part}`, '')).toBe(title);
  }
  for (const [id, { title }] of Object.entries(REMEDIES)) {
    expect(say.maybe(`fault-words.remedy.${id}`, '')).toBe(title);
  }
});
