import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { gzipSync } from 'node:zlib';
import {
  LANGUAGE_IDS,
  type Language,
  languageOfPath,
  pathIn,
  plainPath,
} from '../../words/index.ts';
import { type BuiltList, type CourseFiles, withoutSlash } from '../protocol.ts';

/** Built pages that are no part of the course: they are for one sitting, one person or one bench. */
const NOT_COURSE = /^\/(bench|tests|practical|proof|register|set-up|sign-in|404)(\/|$)/;
/** The practical sheet: nobody's, and kept for trainers. */
const SHEET = '/practical/sheet';
/** Pages the server makes that belong to nobody, by their path in English. */
const ASKED = ['/', '/limits', '/other-rules'];
/** Files every page names that carry no hash. */
const PLAIN = ['/theme.js', '/favicon.svg', '/marks.svg', '/manifest.webmanifest', '/icon-192.png'];
const HASHED = /[\w@~.-]+\.(?:js|css|woff2)\b/g;

type Dist = {
  readonly paths: readonly string[];
  readonly read: (path: string) => Buffer;
};

function openDist(folder: string): Dist {
  const paths = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => `/${join(entry.parentPath, entry.name).slice(folder.length + 1)}`)
    .map((path) => path.split(sep).join('/'))
    .sort();
  return { paths, read: (path) => readFileSync(join(folder, path)) };
}

/** `/lessons/index.html` is asked for as `/lessons`. */
const pageOf = (file: string): string => file.replace(/\/index\.html$/, '') || '/';
const fileOf = (page: string): string => `${page === '/' ? '' : page}/index.html`;

/** Every hashed file that some files need, by name, and those they need in turn. */
function closureOf(from: readonly string[], { paths, read }: Dist): string[] {
  const known = new Set(paths.filter((path) => path.startsWith('/_astro/')));
  const found = new Set<string>();
  const open = [...from];
  for (let file = open.pop(); file !== undefined; file = open.pop()) {
    for (const [name] of read(file).toString('utf8').matchAll(HASHED)) {
      const path = `/_astro/${name}`;
      if (!known.has(path) || found.has(path)) continue;
      found.add(path);
      if (!path.endsWith('.woff2')) open.push(path);
    }
  }
  return [...found].sort();
}

/** Bytes as they lie on the device, and as they come over the network. */
function weigh(paths: readonly string[], { read }: Dist): { bytes: number; packed: number } {
  return paths.reduce(
    (sum, path) => {
      const body = read(path);
      const packed = /\.(woff2|png)$/.test(path) ? body.length : gzipSync(body).length;
      return { bytes: sum.bytes + body.length, packed: sum.packed + packed };
    },
    { bytes: 0, packed: 0 },
  );
}

/** A lesson that is not written in a language yet is read in English, so it is kept with that language too. */
const isBorrowed = (page: string, language: Language, pages: readonly string[]): boolean =>
  language !== 'en' && page.startsWith('/lessons/') && !pages.includes(pathIn(language, page));

/** The list of what is kept of a built site, and what it weighs. */
export function listFiles(folder: string): {
  readonly list: BuiltList;
  readonly packed: Readonly<Record<string, number>>;
} {
  const dist = openDist(folder);
  const pages = dist.paths.filter((path) => path.endsWith('/index.html')).map(pageOf);
  const packed: Record<string, number> = {};
  const languages: Record<string, CourseFiles> = {};
  const isBench = (page: string) => /^(\/\w\w)?\/bench\//.test(page);
  for (const language of LANGUAGE_IDS) {
    const own = pages.filter(
      (page) =>
        (languageOfPath(page) === language && !NOT_COURSE.test(plainPath(page))) ||
        isBorrowed(page, language, pages),
    );
    const words = dist.paths.filter(
      (path) => language !== 'en' && path.startsWith(`/words/${language}/`),
    );
    const files = [
      ...PLAIN.filter((path) => existsSync(join(folder, path))),
      ...dist.paths.filter((path) => path === `/search/${language}.json`),
      ...words,
      ...closureOf(own.map(fileOf), dist),
    ];
    const weight = weigh([...own.map(fileOf), ...files], dist);
    languages[language] = { pages: own, files, bytes: weight.bytes };
    packed[language] = weight.packed;
  }
  const benchPages = pages.filter(isBench);
  const benchFiles = closureOf(benchPages.map(fileOf), dist);
  const weight = weigh(benchFiles, dist);
  packed['bench'] = weight.packed;
  const sheetPages = pages.filter((page) => plainPath(page) === SHEET);
  const sheetFiles = closureOf(sheetPages.map(fileOf), dist);
  const sheetWeight = weigh([...sheetPages.map(fileOf), ...sheetFiles], dist);
  packed['sheet'] = sheetWeight.packed;
  const asked = Object.fromEntries(
    LANGUAGE_IDS.map((language) => [
      language,
      ASKED.map((path) => withoutSlash(pathIn(language, path))).filter(
        (path) => !pages.includes(path),
      ),
    ]),
  );
  const rest = {
    languages,
    asked,
    benches: { pages: benchPages, files: benchFiles, bytes: weight.bytes },
    sheet: { pages: sheetPages, files: sheetFiles, bytes: sheetWeight.bytes },
  };
  return { list: { version: versionOf(rest, dist), ...rest }, packed };
}

/** Changes when any kept file does. */
function versionOf(rest: Omit<BuiltList, 'version'>, { read }: Dist): string {
  const hash = createHash('sha256').update(JSON.stringify(rest));
  const pages = Object.values(rest.languages).flatMap(({ pages: own, files }) => [
    ...own.map(fileOf),
    ...files,
  ]);
  const others = [...rest.benches.pages, ...rest.sheet.pages].map(fileOf);
  for (const path of [...pages, ...others]) hash.update(read(path));
  return hash.digest('hex').slice(0, 12);
}
