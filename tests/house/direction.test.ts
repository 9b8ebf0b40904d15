import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

/**
 * The direction of imports, read from every file. A folder may import the folders named beside it
 * and no others; `three`, `astro:*` and database packages live where the house says they live.
 */
const SRC = resolve(import.meta.dirname, '../../src');

const PURE = ['geometry', 'bench', 'limits', 'grading', 'competence', 'assessment'];
const SERVICES = [
  ...PURE,
  'words',
  'logging',
  'records',
  'store',
  'accounts',
  'attempts',
  'learning',
];
const VIEWS = [...SERVICES, 'scene', 'drawing', 'panels', 'components', 'layouts'];

const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  geometry: [],
  words: [],
  logging: [],
  bench: ['geometry'],
  limits: ['geometry', 'bench'],
  grading: ['geometry', 'bench', 'limits'],
  competence: ['geometry', 'bench', 'limits', 'grading'],
  assessment: ['geometry', 'bench', 'limits', 'grading'],
  records: PURE,
  store: [...PURE, 'words', 'logging', 'records'],
  accounts: [...PURE, 'words', 'logging', 'records', 'store'],
  attempts: [...PURE, 'words', 'records', 'store', 'accounts'],
  learning: [...PURE, 'words', 'records', 'store', 'accounts'],
  // the worker that keeps the course without a network, and its build
  offline: ['words'],
  scene: ['geometry', 'bench'],
  drawing: ['geometry', 'bench', 'words'],
  // the browser's part: services only as types, checked below
  panels: [...SERVICES, 'scene', 'drawing', 'offline'],
  components: [...SERVICES, 'drawing', 'panels', 'styles'],
  layouts: [...SERVICES, 'drawing', 'panels', 'components', 'styles'],
  pages: [...VIEWS, 'styles'],
  'content-check': [...SERVICES, 'drawing', 'components'],
  cli: [...SERVICES, 'drawing', 'server', 'content-check'],
  server: [...SERVICES],
  styles: [],
  // how the site is run: files for other programs, and one question to it over the network
  deploy: [],
};

/** Packages that live in some folders only; a prefix ends in a colon or slash. */
const KEPT_IN: readonly (readonly [RegExp, readonly string[]])[] = [
  [/^three(\/|$)/, ['scene']],
  [/^astro:/, ['components', 'layouts', 'pages', 'content.config.ts', 'middleware.ts']],
  [/^(kysely|pg|better-auth|@better-auth)(\/|$)|^node:sqlite$/, ['store', 'accounts']],
  [/^preact(\/|$)|^@preact\//, ['panels', 'components']],
];

/** Pure folders reach for nothing outside the language, zod apart. */
const PURE_PACKAGES = ['zod'];
const IMPURE =
  /\b(document|window|localStorage|fetch|process)\s*[.([]|\bDate\.now\(|new Date\(\)|\bMath\.random\(|\bcrypto\./;

type Import = { file: string; line: number; from: string; typeOnly: boolean };

function* sourceFiles(folder: string): Generator<string> {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* sourceFiles(path);
    else if (/\.(ts|tsx|astro|mdx)$/.test(entry.name)) yield path;
  }
}

const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, (c) => c.replace(/[^\n]/g, ' ')).replace(/^\s*\/\/.*$/gm, '');

function readImports(file: string): Import[] {
  const text = withoutComments(readFileSync(file, 'utf8'));
  const pattern =
    /(?:^|\n)\s*(?:import|export)\s+(type\s)?(?:[^'";]*?\sfrom\s+)?['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)/g;
  return [...text.matchAll(pattern)].map((match) => ({
    file,
    line: text.slice(0, match.index).split('\n').length,
    from: match[2] ?? match[3] ?? '',
    typeOnly: match[1] !== undefined,
  }));
}

const folderOf = (path: string): string => relative(SRC, path).split(sep)[0] ?? '';
const where = ({ file, line, from }: Import): string =>
  `${relative(SRC, file)}:${line} imports ${from}`;

const files = [...sourceFiles(SRC)];
const imports = files.flatMap(readImports);
const relativeImports = imports
  .filter((one) => one.from.startsWith('.'))
  // a builder's query (`?url`) is no part of the file's name
  .map((one) => ({ ...one, target: resolve(dirname(one.file), one.from.replace(/\?.*$/, '')) }))
  .filter((one) => one.target.startsWith(SRC + sep));

describe('the direction of imports', () => {
  it('reads the whole house', () => {
    expect(files.length).toBeGreaterThan(50);
    expect(imports.length).toBeGreaterThan(100);
    const known = new Set(Object.keys(MAY_IMPORT));
    const folders = readdirSync(SRC, { withFileTypes: true }).filter((e) => e.isDirectory());
    expect(folders.map((e) => e.name).filter((name) => !known.has(name))).toEqual([]);
  });

  it('never goes up', () => {
    const up = relativeImports.filter((one) => {
      const from = folderOf(one.file);
      const to = folderOf(one.target);
      const allowed = MAY_IMPORT[from];
      return allowed !== undefined && from !== to && !allowed.includes(to);
    });
    expect(up.map(where)).toEqual([]);
  });

  it('enters another folder by an index, and never its own', () => {
    const sides = relativeImports.filter((one) => {
      const foreign = folderOf(one.file) !== folderOf(one.target);
      const viaIndex = /\/index\.ts$/.test(one.target) || !/\.tsx?$/.test(one.target);
      if (foreign) {
        // components are taken one by one; server.ts is the front door of its own folder
        const wholeFile =
          folderOf(one.target).endsWith('.ts') ||
          folderOf(one.target) === 'components' ||
          folderOf(one.file) === 'server.ts';
        // two more doors of words: every sheet for the server, the page's own for the browser
        const oneFileFolder =
          one.target.endsWith('/content-files.ts') || /\/words\/(say|spoken)\.ts$/.test(one.target);
        return !viaIndex && !wholeFile && !oneFileFolder;
      }
      return one.target === join(SRC, folderOf(one.file), 'index.ts');
    });
    expect(sides.map(where)).toEqual([]);
  });

  it('names files that exist', () => {
    const lost = relativeImports.filter((one) => !existsSync(one.target));
    expect(lost.map(where)).toEqual([]);
  });

  it.each(KEPT_IN)('keeps %s in its place', (pattern, folders) => {
    const strays = imports.filter(
      (one) => pattern.test(one.from) && !folders.includes(folderOf(one.file)),
    );
    expect(strays.map(where)).toEqual([]);
  });

  it('keeps the pure folders free of packages, clocks, disks and browsers', () => {
    const pure = (path: string) => PURE.includes(folderOf(path));
    const packages = imports.filter(
      (one) => pure(one.file) && !one.from.startsWith('.') && !PURE_PACKAGES.includes(one.from),
    );
    expect(packages.map(where)).toEqual([]);
    const impure = files
      .filter(pure)
      .filter((file) => IMPURE.test(withoutComments(readFileSync(file, 'utf8'))));
    expect(impure.map((file) => relative(SRC, file))).toEqual([]);
  });

  it('takes from services into panels nothing but types and the browser’s own checks', () => {
    const heavy = relativeImports.filter(
      (one) =>
        folderOf(one.file) === 'panels' &&
        ['records', 'store', 'accounts', 'attempts', 'learning'].includes(folderOf(one.target)) &&
        !one.typeOnly &&
        !/records\/[a-z-]+\/index\.ts$/.test(one.target),
    );
    expect(heavy.map(where)).toEqual([]);
  });
});
