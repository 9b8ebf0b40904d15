import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildIndex, type Entry, holdLength, openIndex } from '../../src/panels/search/index.ts';
import { lookUp } from '../../src/panels/search/search-term.ts';
import { markTerms, snippetOf } from '../../src/panels/search/snippet.ts';

const entry = (change: Partial<Entry>): Entry => ({
  kind: 'lesson',
  href: '/x',
  title: 'A lesson',
  section: '',
  names: '',
  text: '',
  ...change,
});

const ENTRIES: readonly Entry[] = [
  entry({
    kind: 'word',
    href: '/glossary#riving-knife',
    title: 'riving knife',
    names: 'spreader splitter',
    text: 'A steel plate behind the rear teeth.',
  }),
  entry({
    href: '/lessons/knife#how-close',
    title: 'The knife',
    section: 'How close',
    text: 'Set the riving knife close to the teeth.',
  }),
  entry({
    href: '/lessons/stand#where',
    title: 'Where to stand',
    section: 'Beside the line',
    text: 'Stand beside the line of the cut, not behind the blade.',
  }),
  entry({
    kind: 'job-aid',
    href: '/lessons/stand/job-aid',
    title: 'Before a cut',
    text: 'Stand to one side.',
  }),
];
const NAMES = [['riving knife', 'spreader', 'splitter']];

/** As the browser gets it: through JSON. */
const find = openIndex(JSON.parse(JSON.stringify(buildIndex(ENTRIES, NAMES, 'en'))));
const found = (typed: string) => find(typed).map(({ href }) => href);

describe('the search', () => {
  it.each([
    ['the word itself', 'knife'],
    ['its plural', 'knives'],
    ['a wrong letter', 'knige'],
    ['a letter left out', 'rivng'],
    ['its beginning', 'riv'],
    ['capitals', 'RIVING KNIFE'],
  ])('finds a word by %s', (_how, typed) => {
    expect(found(typed)).toContain('/glossary#riving-knife');
    expect(found(typed)).toContain('/lessons/knife#how-close');
  });

  it.each(['splitter', 'spreader', 'Splitters'])(
    'finds it everywhere by its other name %s',
    (typed) => {
      expect(found(typed)[0]).toBe('/glossary#riving-knife');
      expect(found(typed)).toContain('/lessons/knife#how-close');
    },
  );

  it('wants every word typed, and takes any when no place has all', () => {
    expect(found('stand beside')).toEqual(['/lessons/stand#where']);
    expect(found('stand zebra')).toContain('/lessons/stand/job-aid');
  });

  it('puts a title before a text', () => {
    expect(found('stand')[0]).toBe('/lessons/stand#where');
  });

  it.each(['', '  ', '?!', 'zebra', 'x'])('finds nothing for "%s"', (typed) => {
    expect(found(typed)).toEqual([]);
  });

  it('takes whatever is typed', () => {
    fc.assert(fc.property(fc.string(), (typed) => Array.isArray(find(typed))));
  });
});

describe('a word that is looked up', () => {
  it.each([
    ['Teeth', 'tooth'],
    ['bodies', 'body'],
    ['benches', 'bench'],
    ['gullets', 'gullet'],
    ['glass', 'glass'],
    ["bench's", 'bench'],
    ['Säge', 'sage'],
  ])('%s is %s', (word, term) => expect(lookUp(word, 'en')).toBe(term));

  it('keeps its ending in a language with other plurals', () => {
    expect(lookUp('Blattes', 'de')).toBe('blattes');
    expect(lookUp('Maß', 'de')).toBe('mass');
  });
});

const said = (pieces: ReturnType<typeof markTerms>) =>
  pieces
    .map((piece) =>
      'mm' in piece ? `<${piece.mm}>` : piece.kind === 'hit' ? `[${piece.text}]` : piece.text,
    )
    .join('');

describe('the words around what was found', () => {
  it('mark each form of it, and no part of another word', () => {
    const text = 'Knives and a knife, knifelike.';
    expect(said(markTerms(text, new Set(['knife']), 'en'))).toBe(
      '[Knives] and a [knife], knifelike.',
    );
  });

  it('show a length apart, for it follows the unit', () => {
    const text = `The gap is ${holdLength(7.9999)} at the knife.`;
    expect(said(markTerms(text, new Set(['knife']), 'en'))).toBe('The gap is <8> at the [knife].');
    expect(find('999')).toEqual([]);
  });

  it('are cut from where most of them stand together', () => {
    const text = `${'a saw cuts. '.repeat(30)}The blade turns near the fence. ${'A saw cuts. '.repeat(30)}`;
    const cut = said(snippetOf(text, new Set(['blade', 'fence']), 'en'));
    expect(cut).toMatch(/^… .*The \[blade\] turns near the \[fence\]\. .* …$/);
    expect(cut.split(' ').length).toBeLessThan(36);
  });

  it('lose no letter of the text, whatever is marked', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('knife', 'a', 'Blades', '.', holdLength(3), "dog's")),
        (words) => {
          const text = words.join(' ');
          const pieces = markTerms(text, new Set(['knife', 'blade']), 'en');
          expect(
            pieces.map((piece) => ('mm' in piece ? holdLength(piece.mm) : piece.text)).join(''),
          ).toBe(text);
        },
      ),
    );
  });
});
