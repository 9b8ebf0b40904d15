import { mdxToJs } from 'satteri';
import { describe, expect, it } from 'vitest';
import { linkTradeWords } from '../../src/components/lesson/link-words.ts';

const GLOSSARY = {
  en: [
    { id: 'kerf', term: 'kerf' },
    { id: 'knife', term: 'knife' },
    { id: 'riving-knife', term: 'riving knife', also: ['splitter'] },
    { id: 'set', term: 'set', link: 'by hand' as const },
  ],
  de: [{ id: 'riving-knife', term: 'Spaltkeil' }],
};

/** The words linked in a lesson, in order, as `id: said`. */
async function linksOf(text: string, file = 'content/lessons/en/one.mdx'): Promise<string[]> {
  const { code } = await mdxToJs(text, {
    fileURL: new URL(`file:///site/${file}`),
    mdastPlugins: [linkTradeWords((language) => GLOSSARY[language])],
  });
  return [...code.matchAll(/_jsxs?\(Term, \{\s*id: "([^"]*)",\s*children: "([^"]*)"/g)].map(
    ([, id, said]) => `${id}: ${said}`,
  );
}

describe('a trade word in a lesson', () => {
  it('is linked the first time it stands there, and only then', async () => {
    expect(await linksOf('The kerf. A kerf.\n\nThe kerfs.')).toEqual(['kerf: kerf']);
  });

  it('is the longest that fits, by any of its names and forms', async () => {
    expect(await linksOf('Riving knives and a knife.')).toEqual([
      'riving-knife: Riving knives',
      'knife: knife',
    ]);
    expect(await linksOf('A splitter, then a riving knife.')).toEqual(['riving-knife: splitter']);
  });

  it('keeps every letter of the sentence', async () => {
    const { code } = await mdxToJs('A kerf, a *riving knife* and more.', {
      fileURL: new URL('file:///site/content/lessons/en/one.mdx'),
      mdastPlugins: [linkTradeWords((language) => GLOSSARY[language])],
    });
    const said = [...code.matchAll(/(?:children: |^\s+)"([^"]*)"/gm)].map(([, text]) => text);
    expect(said.join('')).toBe('A kerf, a riving knife and more.');
  });

  it.each([
    ['a heading', '## The kerf'],
    ['a link', '[kerf](#there)'],
    ['code', 'Type `kerf` here.'],
    ['an attribute', '<Drawing alt="a kerf" />'],
    ['another word', 'The kerfless thing.'],
    ['a word of an everyday sense', 'Set the saw.'],
  ])('is not linked in %s', async (_where, text) => {
    expect(await linksOf(text)).toEqual([]);
  });

  it.each([
    ['a caution', '<Caution>\n  Mind the kerf.\n</Caution>'],
    ['a caption', '<Drawing alt="a kerf">\n  This is the kerf.\n</Drawing>'],
    ['a list', '- the kerf'],
    ['strong words', 'the **kerf**'],
  ])('is linked in %s', async (_where, text) => {
    expect(await linksOf(text)).toEqual(['kerf: kerf']);
  });

  it('is left to the link its writer made, before or after', async () => {
    expect(await linksOf('The kerf and the <Term id="kerf">slot</Term>.')).toEqual(['kerf: slot']);
    expect(await linksOf('The <Term id="kerf">slot</Term> is the kerf.')).toEqual(['kerf: slot']);
  });

  it('is one of the lesson’s own language', async () => {
    const text = 'Der Spaltkeil, the riving knife.';
    expect(await linksOf(text, 'content/lessons/de/one.mdx')).toEqual(['riving-knife: Spaltkeil']);
  });

  it('is not looked for in files that are no lessons', async () => {
    expect(await linksOf('The kerf.', 'src/pages/one.mdx')).toEqual([]);
  });
});
