import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { type Document, isNode, LineCounter, parseDocument } from 'yaml';
import type { Problem } from '../bench/index.ts';

/** A content file that cannot be used, as one sentence for its author. */
export class ContentProblem extends Error {
  override readonly name = 'ContentProblem';
}

/** What a reader of a parsed file gives back. */
export type Read<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly error: Problem };

export type ContentFile = { readonly name: string; readonly path: string };

/** Bytes: a hundred times the longest content file is a slip, or no content file at all. */
const LARGEST_FILE = 2_000_000;

/** The YAML files of a folder by name. @throws ContentProblem when it cannot be read */
export function listFiles(folder: string): ContentFile[] {
  try {
    return readdirSync(folder)
      .filter((file) => /\.ya?ml$/.test(file))
      .sort()
      .map((file) => ({ name: file.replace(/\.ya?ml$/, ''), path: join(folder, file) }));
  } catch (error) {
    const reason =
      (error as NodeJS.ErrnoException).code === 'ENOENT' ? 'is not there' : 'cannot be read';
    throw new ContentProblem(`The content folder ${folder} ${reason}.`);
  }
}

/** Field path as keys: `limits[3].source` becomes limits, 3, source. */
const pathKeys = (path: string): (string | number)[] =>
  path
    .split(/[.[\]]+/)
    .filter((key) => key !== '')
    .map((key) => (/^\d+$/.test(key) ? Number(key) : key));

/** The line on which a field stands, or the nearest group around it, from 1. @param path keys from the top */
export function lineOfField(
  path: readonly PropertyKey[],
  document: Document,
  lines: LineCounter,
): number {
  for (let keys = [...path]; keys.length > 0; keys = keys.slice(0, -1)) {
    const node: unknown = document.getIn(keys, true);
    if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
  }
  return 1;
}

function readText(file: ContentFile, where: string): string {
  try {
    const { size } = statSync(file.path);
    if (size <= LARGEST_FILE) return readFileSync(file.path, 'utf8');
  } catch {
    throw new ContentProblem(`${where} cannot be read.`);
  }
  throw new ContentProblem(`${where} is too large: a content file is at most 2 MB.`);
}

/**
 * One content file, checked and frozen.
 * @throws ContentProblem with the file, the line and what the field may be
 */
export function readYaml<Value>(file: ContentFile, read: (value: unknown) => Read<Value>): Value {
  const where = relative(process.cwd(), file.path);
  const text = readText(file, where);
  const lines = new LineCounter();
  let document: Document;
  let value: unknown;
  try {
    document = parseDocument(text, { lineCounter: lines });
    const broken = document.errors[0];
    if (broken !== undefined) {
      const { line } = lines.linePos(broken.pos[0]);
      throw new ContentProblem(
        `${where}, line ${line}: not valid YAML: ${broken.message.split('\n')[0]}`,
      );
    }
    value = document.toJS();
  } catch (error) {
    if (error instanceof ContentProblem) throw error;
    // names used far too often, or nesting deeper than a reader can follow
    throw new ContentProblem(`${where}: not valid YAML: it cannot be unfolded.`);
  }
  const result = read(value);
  if (result.ok) return freeze(result.value);
  const line = lineOfField(pathKeys(result.error.path), document, lines);
  throw new ContentProblem(`${where}, line ${line}: ${result.error.message}`);
}

/** Freezes plain data all the way down; what it holds is shared by every request. */
export function freeze<Value>(value: Value): Value {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  Object.freeze(value);
  for (const inner of Object.values(value)) freeze(inner);
  return value;
}

/** Every file of a folder by its id. @throws ContentProblem */
export function loadFolder<Value>(
  folder: string,
  read: (value: unknown) => Read<Value>,
  idOf: (value: Value, file: ContentFile) => string,
): ReadonlyMap<string, Value> {
  const entries = new Map<string, Value>();
  for (const file of listFiles(folder)) {
    const value = readYaml(file, read);
    const id = idOf(value, file);
    if (entries.has(id)) {
      throw new ContentProblem(
        `${relative(process.cwd(), file.path)}: the id ${id} is used twice.`,
      );
    }
    entries.set(id, value);
  }
  return entries;
}

/** A file that carries an id is found by it, so the two must agree. */
export function idAsFile(value: { readonly id: string }, file: ContentFile): string {
  if (value.id !== file.name) {
    throw new ContentProblem(
      `${relative(process.cwd(), file.path)}: id must be ${file.name}, as the file is named.`,
    );
  }
  return value.id;
}
