import { afterEach, describe, expect, it, vi } from 'vitest';
import {
  countedKey,
  cutAndFill,
  cutSentence,
  fillPlaces,
  languageOfPath,
  pathIn,
  plainPath,
} from '../../src/words/index.ts';
import { sayIn } from '../../src/words/say.ts';
import { learnSheets, sayFrom } from '../../src/words/spoken.ts';

describe('addresses', () => {
  it('tell the language by their first part', () => {
    expect(languageOfPath('/de/lessons/')).toBe('de');
    expect(languageOfPath('/lessons/de')).toBe('en');
    expect(languageOfPath('/designs')).toBe('en');
  });

  it('go into a language and back', () => {
    expect(pathIn('de', '/lessons/')).toBe('/de/lessons/');
    expect(pathIn('de', '/de/lessons/')).toBe('/de/lessons/');
    expect(pathIn('en', '/de/lessons/')).toBe('/lessons/');
    expect(plainPath('/de')).toBe('/');
    expect(pathIn('de', '/')).toBe('/de/');
  });

  it('leave interfaces, anchors and other sites as they are', () => {
    for (const href of ['/api/health', '#rules', 'https://example.org/', '//example.org/']) {
      expect(pathIn('de', href)).toBe(href);
    }
  });
});

describe('sentences', () => {
  it('fill the places they have words for', () => {
    expect(fillPlaces('{a} of {b}', { a: 0 })).toBe('0 of {b}');
  });

  it('are cut into text, places, links and stress', () => {
    expect(cutSentence('Read the [glossary](/glossary), **then** {next}.')).toEqual([
      { kind: 'text', text: 'Read the ' },
      { kind: 'link', text: 'glossary', href: '/glossary' },
      { kind: 'text', text: ', ' },
      { kind: 'strong', text: 'then' },
      { kind: 'text', text: ' ' },
      { kind: 'place', name: 'next' },
      { kind: 'text', text: '.' },
    ]);
  });

  it('count as the language does', () => {
    const sheet = { 'n.none': '', 'n.one': '', 'n.other': '' };
    expect([0, 1, 2].map((count) => countedKey(sheet, 'n', count, 'de'))).toEqual([
      'n.none',
      'n.one',
      'n.other',
    ]);
    expect(countedKey({ 'n.other': '' }, 'n', 1, 'en')).toBe('n.other');
  });

  it('are said in the language of the page', () => {
    expect(sayIn('de')('frame.sign-in')).toBe('Anmelden');
    expect(sayIn('en')('frame.sign-in')).toBe('Sign in');
    expect(sayIn('de').maybe('frame.no-such', 'otherwise')).toBe('otherwise');
  });
});

describe('a panel', () => {
  afterEach(() => vi.unstubAllGlobals());
  const english = { hello: 'Hello {name}', bye: 'Bye' };

  it('speaks English with no request, the language of the page once fetched, English where it does not come', async () => {
    const fetched = vi.fn(async () => Response.json({ hello: 'Hallo {name}' }));
    vi.stubGlobal('fetch', fetched);
    await learnSheets('greeting');
    expect(fetched).not.toHaveBeenCalled();
    const say = sayFrom('greeting', english);
    expect(say('hello', { name: 'Mira' })).toBe('Hello Mira');

    vi.stubGlobal('document', { documentElement: { lang: 'de' } });
    await learnSheets('greeting');
    expect(fetched).toHaveBeenCalledWith('/words/de/greeting.json');
    expect(say('hello', { name: 'Mira' })).toBe('Hallo Mira');
    expect(say('bye')).toBe('Bye');

    vi.stubGlobal('fetch', async () => {
      throw new TypeError('no network');
    });
    await learnSheets('other');
    expect(sayFrom('other', english)('bye')).toBe('Bye');
  });
});

it('keeps a name with marks in it plain text, wherever it stands in a sentence', () => {
  const name = '[win](https://bad.example) **now** {other}';
  const sentence = '**{name}** wrote to {name}. [Ask {name}](/people)';
  expect(cutAndFill(sentence, { name })).toEqual([
    { kind: 'strong', text: name },
    { kind: 'text', text: ' wrote to ' },
    { kind: 'place', name: 'name' },
    { kind: 'text', text: '. ' },
    { kind: 'link', text: `Ask ${name}`, href: '/people' },
  ]);
});
