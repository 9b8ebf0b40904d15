import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { listFiles } from './content-yaml.ts';
import { ownFolder } from './limit-files.ts';

/** A content file just as it lies on the disk. */
export type ContentText = {
  readonly id: string;
  /** name of the file with its ending */
  readonly file: string;
  readonly bytes: Uint8Array;
};

const read = (id: string, path: string): ContentText => ({
  id,
  file: basename(path),
  bytes: new Uint8Array(readFileSync(path)),
});

/** The files of some limit sets, published ones and the organisation's own, in the order of their ids. */
export function readLimitTexts(
  ids: ReadonlySet<string>,
  dir = 'content',
  own = ownFolder(),
): ContentText[] {
  const folders = [join(dir, 'limits'), own].filter((folder) => existsSync(folder));
  const found = folders.flatMap((folder) =>
    listFiles(folder)
      .filter(({ name }) => ids.has(name))
      .map(({ name, path }) => read(name, path)),
  );
  return found.sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** The files of some units, by the id in them, in the order of the course. */
export function readUnitTexts(ids: ReadonlySet<string>, dir = 'content'): ContentText[] {
  return listFiles(join(dir, 'units')).flatMap(({ path }) => {
    const text = read('', path);
    const id = /^id: *(\S+) *$/m.exec(new TextDecoder().decode(text.bytes))?.[1] ?? '';
    return ids.has(id) ? [{ ...text, id }] : [];
  });
}

/** The files of every lesson in one language, in the order of their names. */
export function readLessonTexts(language: string, dir = 'content'): ContentText[] {
  const folder = join(dir, 'lessons', language);
  return readdirSync(folder)
    .filter((name) => name.endsWith('.mdx'))
    .sort()
    .map((name) => read(name.replace(/\.mdx$/, ''), join(folder, name)));
}
