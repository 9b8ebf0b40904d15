import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { MadePack } from '../../src/pages/_pack/make-pack.ts';
import { addressOf, makeStagePack } from './make.ts';
import {
  codesOf,
  drawingOf,
  type Piece,
  piecesOf,
  type ReadPdf,
  readPdf,
  textOf,
} from './read-pdf.ts';
import { openPackStage, type PackStage } from './stage.ts';

let stage: PackStage;
const packs = new Map<string, { readonly pack: MadePack; readonly read: ReadPdf }>();

const KINDS = [
  { name: 'English, A4', language: 'en', paper: 'a4', size: [595.28, 841.89] },
  { name: 'English, Letter', language: 'en', paper: 'letter', size: [612, 792] },
  { name: 'German, A4', language: 'de', paper: 'a4', size: [595.28, 841.89] },
] as const;

beforeAll(async () => {
  stage = await openPackStage();
  await stage.authorise('Mira Holt');
  await stage.authorise('Tom Okafor');
  const now = new Date().toISOString();
  for (const { name, language, paper } of KINDS) {
    const pack = await makeStagePack(stage, now, { language, paper });
    packs.set(name, { pack, read: await readPdf(pack.pdf) });
  }
}, 60_000);
afterAll(() => stage.close());

const made = (name: string) => {
  const found = packs.get(name);
  if (found === undefined) throw new Error(`no pack was made for ${name}`);
  return found;
};

const all = ({ pages }: ReadPdf): Piece[] => piecesOf(pages.flatMap(({ tree }) => tree));
const withRole = (read: ReadPdf, role: RegExp): Piece[] =>
  all(read).filter((piece) => role.test(piece.role));

/** Addresses of the proofs in the order of the document: of each person the authorisations, then the sheets. */
const addressesOf = ({ content }: MadePack): string[] =>
  content.people.flatMap(({ leaves, sheets }) => [
    ...leaves.map(({ statement }) => addressOf(`/proof/leave/${statement.id}`)),
    ...sheets.map(({ statement }) => addressOf(`/proof/${statement.signoff}`)),
  ]);

describe.each(KINDS)('the PDF of a pack, $name', ({ language, name, size }) => {
  it('is marked as tagged, with the language and the title of the pack', () => {
    const { pack, read } = made(name);
    expect(read.isMarked).toBe(true);
    expect(read.language).toBe(language);
    expect(read.title).toContain(pack.content.organisation);
    expect(read.title).toContain(pack.content.asOf.slice(0, 4));
    const raw = Buffer.from(pack.pdf).toString('latin1');
    // ISO 14289-1, 7.1: the title is shown, not the name of the file, and the file says which part it follows
    expect(raw).toMatch(/\/DisplayDocTitle true/);
    expect(raw).toContain('<pdfuaid:part>1</pdfuaid:part>');
  });

  it('has every page in the size that was chosen', () => {
    const { pages } = made(name).read;
    expect(pages.length).toBeGreaterThan(10);
    for (const { height, width } of pages) {
      // points: ISO 216 A4 is 210 by 297 mm, Letter is 8.5 by 11 inches
      expect([width, height].sort((a, b) => a - b)).toEqual(size.map((one) => expect.closeTo(one)));
    }
  });

  it('has headings that begin at the first level and leave none out', () => {
    const levels = withRole(made(name).read, /^H\d$/).map(({ role }) => Number(role.slice(1)));
    expect(levels[0]).toBe(1);
    expect(levels.filter((level) => level === 3).length).toBe(16);
    for (const [place, level] of levels.entries()) {
      expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1);
    }
  });

  it('names both people in headings of the first level, with text in every heading', () => {
    const headings = withRole(made(name).read, /^H\d$/);
    const first = headings.filter(({ role }) => role === 'H1').map(textOf);
    for (const who of ['Mira Holt', 'Tom Okafor']) {
      expect(first.filter((text) => text.includes(who))).toHaveLength(1);
    }
    for (const heading of headings) expect(textOf(heading).trim()).not.toBe('');
  });

  it('has tables in which each row begins with a head cell, and head rows of head cells alone', () => {
    const { pack, read } = made(name);
    const heads = withRole(read, /^THead$/);
    expect(heads.length).toBeGreaterThan(4);
    for (const { children } of heads) {
      const cells = children.flatMap((row) => row.children);
      expect(new Set(cells.map(({ role }) => role))).toEqual(new Set(['TH']));
      for (const cell of cells) expect(textOf(cell).trim()).not.toBe('');
    }
    const rows = withRole(read, /^TBody$/).flatMap(({ children }) => children);
    expect(rows.length).toBeGreaterThan(100);
    for (const { children, role } of rows) {
      expect(role).toBe('TR');
      const [first, ...rest] = children.map((cell) => cell.role);
      expect(first).toBe('TH');
      expect(new Set(rest)).toEqual(new Set(['TD']));
    }
    // ISO 14289-1, 7.5: a head cell says whether it heads a column or a row
    const raw = Buffer.from(pack.pdf).toString('latin1');
    const cells = raw.match(/\/S \/TH\b(?!ead)/g)?.length ?? 0;
    expect(cells).toBeGreaterThan(100);
    expect(raw.match(/\/Scope \/(Column|Row)\b/g)).toHaveLength(cells);
  });

  it('says of each person and machine what the matrix says', () => {
    const { pack, read } = made(name);
    const rows = withRole(read, /^TR$/).map(textOf);
    const may = language === 'en' ? /May, until/ : /Darf,? bis/i;
    for (const who of ['Mira Holt', 'Tom Okafor']) {
      expect(rows.filter((text) => text.startsWith(who) && may.test(text))).toHaveLength(1);
    }
    expect(rows.some((text) => text.startsWith('Jess Lindqvist') && may.test(text))).toBe(false);
    expect(pack.content.benches.map(({ asset }) => asset)).toEqual(['AL-01', 'AL-02']);
  });

  it('has all its text in tagged pieces, or marked as no part of the content', () => {
    for (const { loose } of made(name).read.pages) expect(loose).toBe('');
  });

  it('gives a code to each authorisation and sheet that says the address of its proof', () => {
    const { pack } = made(name);
    const wanted = addressesOf(pack);
    expect(wanted).toHaveLength(16);
    expect(drawingOf(pack.pdf).flatMap(codesOf)).toEqual(wanted);
  });

  it('says beside each code, for those who cannot see it, the same address', () => {
    const { pack, read } = made(name);
    const alts = withRole(read, /^Figure$/).map(({ alt }) => alt ?? '');
    const wanted = addressesOf(pack);
    expect(alts).toHaveLength(wanted.length);
    for (const [place, alt] of alts.entries()) expect(alt).toContain(wanted[place]);
  });

  it('numbers its pages, of as many as there are', () => {
    const { pack, read } = made(name);
    const { length } = read.pages;
    expect(drawingOf(pack.pdf)).toHaveLength(length);
    for (const [place, { aside }] of read.pages.entries()) {
      expect(aside).toMatch(language === 'en' ? /page \d+ of \d+/ : /Seite \d+ von \d+/);
      expect(aside.match(/(\d+) (?:of|von) (\d+)/)?.slice(1)).toEqual([
        String(place + 1),
        String(length),
      ]);
    }
  });

  it('says at the head of a page that goes on about a person who it is about', () => {
    const { pages } = made(name).read;
    const first = pages.findIndex(({ tree }) => tree.some((one) => textOf(one).startsWith('Mira')));
    expect(pages[first + 1]?.aside).toContain('Mira Holt');
    expect(pages[1]?.aside).not.toContain('Mira Holt');
  });

  it('leaves no heading alone at the foot of a page', () => {
    for (const { tree } of made(name).read.pages) {
      expect(tree.at(-1)?.role).not.toMatch(/^H\d$/);
    }
  });

  it('embeds every font it names', () => {
    const raw = Buffer.from(made(name).pack.pdf).toString('latin1');
    const fonts = raw.match(/\/Type \/FontDescriptor/g)?.length ?? 0;
    expect(fonts).toBeGreaterThan(1);
    expect(raw.match(/\/FontFile[23]? \d+ 0 R/g)).toHaveLength(fonts);
  });
});

describe('a pack in German', () => {
  it('marks the words nobody has translated as English', () => {
    const cells = withRole(made('German, A4').read, /^T[HD]$/);
    const english = cells.filter(({ lang }) => lang === 'en').map(textOf);
    expect(english.some((text) => text.startsWith('I watched this person'))).toBe(true);
    expect(cells.some(({ lang, text }) => lang === null && /Nachweis/.test(text))).toBe(true);
  });

  it('says its headings in German', () => {
    const headings = (name: string) => withRole(made(name).read, /^H1$/).map(textOf);
    const same = headings('German, A4').filter((text) => headings('English, A4').includes(text));
    expect(same).toEqual([]);
  });
});
