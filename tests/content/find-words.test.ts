import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formsOf, makeWordFinder } from '../../src/components/lesson/find-words.ts';

describe('the forms of a trade word', () => {
  it.each([
    ['kerf', ['kerf', 'kerfs', 'kerfed', 'kerfing']],
    ['riving knife', ['riving knife', 'riving knives']],
    ['tooth', ['tooth', 'teeth']],
    ['gauge of a blade', ['gauge of a blade', 'gauges of a blade']],
    ['isolate', ['isolate', 'isolates', 'isolated', 'isolating']],
    ['trim', ['trim', 'trims', 'trimmed', 'trimming']],
    ['pass', ['pass', 'passes']],
    ['body', ['body', 'bodies']],
  ])('%s', (term, forms) => {
    expect(formsOf(term)).toEqual(expect.arrayContaining(forms));
  });

  it('are its own alone in another language', () => {
    expect(formsOf('Spaltkeil', 'de')).toEqual(['Spaltkeil']);
  });
});

describe('the finder', () => {
  const find = makeWordFinder([
    { id: 'knife', term: 'knife' },
    { id: 'riving-knife', term: 'riving knife', also: ['splitter'] },
    { id: 'run-down', term: 'run-down' },
  ]);
  const found = (text: string) => find(text).map(({ id, from, to }) => [id, text.slice(from, to)]);

  it('takes the longest word, and never two in one place', () => {
    expect(found('A riving knife is a knife.')).toEqual([
      ['riving-knife', 'riving knife'],
      ['knife', 'knife'],
    ]);
  });

  it('knows other names, capitals, line breaks and hyphens', () => {
    expect(found('Splitters and a Riving\nknife in the run down')).toEqual([
      ['riving-knife', 'Splitters'],
      ['riving-knife', 'Riving\nknife'],
      ['run-down', 'run down'],
    ]);
  });

  it('leaves words alone that only hold one', () => {
    expect(found('a knifelike, jack-knife, knife-edge thing')).toEqual([]);
  });

  it('finds nothing with no words to find', () => {
    expect(makeWordFinder([])('riving knife')).toEqual([]);
  });

  it('never overlaps, and stays within the text', () => {
    const piece = fc.constantFrom('knife', 'riving', 'splitter', 'run-down', 'the', '.', '\n');
    fc.assert(
      fc.property(fc.array(piece), (pieces) => {
        const text = pieces.join(' ');
        let at = 0;
        for (const { from, to } of find(text)) {
          expect(from).toBeGreaterThanOrEqual(at);
          expect(to).toBeGreaterThan(from);
          at = to;
        }
        expect(at).toBeLessThanOrEqual(text.length);
      }),
    );
  });
});
