import { describe, expect, it } from 'vitest';
import { type Bench, measureBench } from '../../src/bench/index.ts';
import { askedOrder, placedIn } from '../../src/components/lesson/asked-order.ts';
import {
  factsIn,
  joinFacts,
  sayFactSource,
  sayFactValue,
} from '../../src/components/lesson/facts.ts';
import { splitText } from '../../src/components/lesson/fill-text.ts';
import {
  FactFileSchema,
  LessonSchema,
  QuestionFileSchema,
} from '../../src/components/lesson/lesson-schema.ts';
import { nameTarget } from '../../src/components/lesson/name-target.ts';
import { plainText } from '../../src/components/lesson/plain-text.ts';
import { loadBenches, loadLimitSets } from '../../src/store/content-files.ts';
import { sayIn } from '../../src/words/say.ts';

const bench = loadBenches().get('lesson-bench') as Bench;
const say = sayIn('en');
const source = { title: 'A survey', clause: 'table 2', year: 2011, seen: 'primary' as const };
const file = (id: string) => ({
  facts: { [id]: { value: 35, unit: '%', says: 'A share of something.', source } },
});

describe('a sentence of a content file', () => {
  it('is cut at its figures, sums, limits and facts', () => {
    expect(
      splitText('A {blade.kerf - knife.thickness} gap, {limit:gb.knife.gap}, {fact: of-ten}.'),
    ).toEqual([
      { kind: 'text', text: 'A ' },
      { kind: 'figure', of: 'blade.kerf - knife.thickness' },
      { kind: 'text', text: ' gap, ' },
      { kind: 'limit', id: 'gb.knife.gap' },
      { kind: 'text', text: ', ' },
      { kind: 'fact', id: 'of-ten' },
      { kind: 'text', text: '.' },
    ]);
  });

  it('is told as plain text in either unit, where no markup can stand', () => {
    const filling = {
      bench,
      measures: measureBench(bench),
      facts: joinFacts([FactFileSchema.parse(file('of-ten'))]),
      sets: loadLimitSets(),
    };
    const text =
      'About {blade.kerf}, {cut.chipMean}, {arbor.runDown}, {fact:of-ten}, {limit:gb.knife.gap}';
    expect(plainText(text, filling, say, 'mm')).toBe(
      'About 4.2 mm, 0.054 mm, 8 s, 35 %, at most 8 mm',
    );
    expect(plainText(text, filling, say, 'inch')).toMatch(
      /^About 11\/64 in, 0\.0021 in, 8 s, 35 %, at most 5\/16 in$/,
    );
    expect(plainText('{blade.kerf}', filling, sayIn('de'), 'mm')).toBe('4,2 mm');
    expect(() => plainText('{fact:none}', filling, say, 'mm')).toThrow('no fact named none');
    expect(() => plainText('{limit:gb.none}', filling, say, 'mm')).toThrow(
      'no limit named gb.none',
    );
  });
});

describe('questions in a lesson', () => {
  const bank = ['one', 'two', 'three', 'four'];

  it('are met in the order of the text, the rest where the writer has put them', () => {
    const body = 'a <Question id="three" /> b\n<Questions />\n<Question\n  id="one" />';
    expect([...placedIn(body)]).toEqual(['three', 'one']);
    expect(askedOrder(body, bank)).toEqual(['three', 'two', 'four', 'one']);
  });

  it('are only those placed where the rest is not asked for', () => {
    expect(askedOrder('<Question id="two" />', bank)).toEqual(['two']);
  });
});

describe('facts', () => {
  it('are told with their unit, and with where they are from and how that was seen', () => {
    const fact = joinFacts([FactFileSchema.parse(file('of-ten'))]).get('of-ten') as never;
    expect(sayFactValue(fact, say)).toBe('35 %');
    expect(sayFactSource(fact, say)).toBe('A survey, table 2, 2011 (read in the text itself)');
    expect(sayFactValue({ ...(fact as object), value: 33400, unit: undefined } as never, say)).toBe(
      '33,400',
    );
    expect(sayFactValue({ ...(fact as object), value: 1998, unit: undefined } as never, say)).toBe(
      '1998',
    );
    expect(sayFactValue({ ...(fact as object), value: 2.5 } as never, sayIn('de'))).toBe('2,5 %');
  });

  it('are refused when two have one id', () => {
    expect(() => joinFacts([file('a'), file('a')].map((one) => FactFileSchema.parse(one)))).toThrow(
      'given twice',
    );
  });

  it('are listed once, in the order a reader meets them, those of questions too', () => {
    const questions = [{ ask: 'Is it {fact:three}?' }] as never;
    expect(
      factsIn('<Fact id="two" /> <Fact digits={1} id="one" /> <Fact id="two" />', questions),
    ).toEqual(['two', 'one', 'three']);
  });

  it('are refused without a source, in a sentence that names the field', () => {
    const read = FactFileSchema.safeParse({
      facts: { a: { value: 1, says: 'x', source: { title: 'b', seen: 'heard' } } },
    });
    expect(read.error?.issues[0]?.message).toBe('must be primary, secondary, memory or practice');
  });
});

describe('the head of a lesson', () => {
  const head = {
    title: 'A lesson',
    about: 'What it is about.',
    order: 1,
    minutes: 10,
    bench: 'lesson-bench',
    rules: ['gb'],
    jobAid: {
      title: 'A sheet',
      steps: ['One.', 'Two.', 'Three.'],
      measures: [],
      drawing: { view: 'side', title: 'The bench', alt: 'What is seen.' },
    },
  };

  it('needs no measures on its sheet for the wall, and is for trainees unless told', () => {
    const read = LessonSchema.parse(head);
    expect(read).toMatchObject({ who: 'trainee', after: [], jobAid: { measures: [] } });
  });

  it.each([
    [{ who: 'boss' }, 'must be trainee, trainer or employer'],
    [{ after: ['Not a name'] }, 'must be small letters, figures and hyphens'],
    [
      { jobAid: { ...head.jobAid, measures: Array(11).fill('knife.gapMin') } },
      'must list at most 10',
    ],
    [
      { jobAid: { ...head.jobAid, drawing: { ...head.jobAid.drawing, view: 'back' } } },
      'must be side, end, plan, knife or teeth',
    ],
  ])('is refused with %j', (changed, why) => {
    const read = LessonSchema.safeParse({ ...head, ...changed });
    expect(read.error?.issues[0]?.message).toBe(why);
  });
});

describe('a bank of questions', () => {
  const asked = { id: 'one', ask: 'What?', because: 'So.' };
  const pair = (right: string) => ({ left: `To ${right}`, right, why: 'Because.' });
  const refusal = (question: object) =>
    QuestionFileSchema.safeParse({ questions: [question] }).error?.issues[0]?.message;

  it('takes pairs to match, every right side different', () => {
    const match = { ...asked, kind: 'match', pairs: ['a', 'b', 'c'].map(pair) };
    expect(refusal(match)).toBeUndefined();
    expect(refusal({ ...match, pairs: ['a', 'b', 'a'].map(pair) })).toBe(
      'must have no right side twice',
    );
    expect(refusal({ ...match, pairs: [pair('a')] })).toBe('must list at least 3');
  });

  it('takes a place to mark, a part or a dimension', () => {
    const drawing = { view: 'side', title: 'The bench', alt: 'What is seen.' };
    const mark = { ...asked, kind: 'mark', drawing, within: 4 };
    expect(refusal({ ...mark, target: { part: 'knife' } })).toBeUndefined();
    expect(refusal({ ...mark, target: { dimension: 'knife.gapAtTable' } })).toBeUndefined();
    expect(refusal({ ...mark, target: { part: 'motor' } })).toBe(
      'must be { part } or { dimension }',
    );
  });

  it('names what is to be marked', () => {
    expect(nameTarget({ part: 'posts' }, say)).toBe('the posts of the guard');
    expect(nameTarget({ dimension: 'blade.projection' }, say)).toBe('Blade above the table');
    expect(nameTarget({ dimension: 'insert.gapLeft' }, say)).toBe('Insert gap, left');
  });
});
