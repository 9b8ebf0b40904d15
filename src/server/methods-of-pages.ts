import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import type { Plugin } from 'vite';

const NAME = 'virtual:methods';
const RESOLVED = `\0${NAME}`;

/** `calendar/[token].ics.ts` answers at `/calendar/[token].ics`, and `lessons/index.astro` at `/lessons`. */
const patternOf = (file: string): string =>
  `/${file.replace(/\.(astro|ts)$/, '').replace(/(^|\/)index$/, '')}`;

/** A page shows itself; one that asks for the method takes a form as well. A file names what it answers. */
function methodsIn(file: string, text: string): readonly string[] {
  const isPage = file.endsWith('.astro');
  const takesForm = text.includes("Astro.request.method === 'POST'");
  const named = isPage
    ? ['GET', ...(takesForm ? ['POST'] : [])]
    : [...text.matchAll(/^export const ([A-Z]+)\b/gm)].map(([, method = '']) => method);
  return named.flatMap((method) => (method === 'GET' ? ['GET', 'HEAD'] : [method])).sort();
}

/**
 * Which methods each address takes, by the pattern of the address without its language, read from the files that
 * answer there.
 * @param folder where the pages lie
 */
export function methodsOfPages(folder: string): Readonly<Record<string, readonly string[]>> {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((file) => file.split(sep).join('/'))
    .filter((file) => /\.(astro|ts)$/.test(file) && !/(^|\/)_/.test(file));
  return Object.fromEntries(
    files.map((file) => [
      patternOf(file),
      methodsIn(file, readFileSync(join(folder, file), 'utf8')),
    ]),
  );
}

/** Gives the server's code the methods of every address as `virtual:methods`. */
export function methodsTaken(): Plugin {
  let root = '';
  return {
    name: 'methods-taken',
    configResolved: (config) => {
      root = config.root;
    },
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: (id) => {
      if (id !== RESOLVED) return undefined;
      const methods = methodsOfPages(join(root, 'src/pages'));
      return `export const METHODS = ${JSON.stringify(methods)};`;
    },
  };
}
