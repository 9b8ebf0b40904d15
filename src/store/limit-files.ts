import { existsSync, readdirSync, statSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { type Extending, type LimitSet, readLimitSet } from '../limits/index.ts';
import {
  type ContentFile,
  ContentProblem,
  idAsFile,
  listFiles,
  type Read,
  readYaml,
} from './content-yaml.ts';

/**
 * Limit sets: the published ones in content/limits, and an organisation's own in DATA_DIR/limits.
 * An own set stands by itself or extends a published one, which it may tighten and never loosen.
 */
type Sets = ReadonlyMap<string, LimitSet>;

function read(value: unknown, extending?: Extending): Read<LimitSet> {
  const result = readLimitSet(value, extending);
  return result.ok ? { ok: true, value: result.set } : result;
}

const published = new Map<string, Sets>();

const namesBase = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'extends' in value;

/** Sets that stand by themselves are read first, then those that extend one of them. */
function loadPublished(folder: string): Sets {
  const kept = published.get(folder);
  if (kept !== undefined) return kept;
  const sets = new Map<string, LimitSet>();
  const later: ContentFile[] = [];
  for (const file of listFiles(folder)) {
    const set = readYaml<LimitSet | null>(file, (value) =>
      namesBase(value) ? { ok: true, value: null } : read(value),
    );
    if (set === null) later.push(file);
    else sets.set(idAsFile(set, file), set);
  }
  const known = new Map(sets);
  for (const file of later) {
    const set = readYaml(file, (value) => read(value, { known, changes: 'any' }));
    sets.set(idAsFile(set, file), set);
  }
  const ordered = new Map([...sets].sort(([a], [b]) => (a < b ? -1 : 1)));
  published.set(folder, ordered);
  return ordered;
}

/** Where an organisation keeps its own sets. */
export const ownFolder = (): string => join(process.env['DATA_DIR'] || 'data', 'limits');

/** Changes whenever a file of the folder does; empty when there is no such folder. */
function stampOf(folder: string): string {
  // mostly there is none, and this is asked for every attempt: an error costs ten times the look
  if (!existsSync(folder)) return '';
  try {
    return readdirSync(folder)
      .filter((name) => /\.ya?ml$/.test(name))
      .sort()
      .map((name) => {
        const { mtimeMs, size } = statSync(join(folder, name));
        return `${name} ${mtimeMs} ${size}`;
      })
      .join('\n');
  } catch {
    return '';
  }
}

type Loaded = { readonly stamp: string; readonly sets: Sets; readonly problems: readonly string[] };

const all = new Map<string, Loaded>();

/** Every set, own ones read again when their files change. A file with a slip in it is left out. */
function loadAll(dir: string, own: string): Loaded {
  const key = `${resolve(dir)}\n${resolve(own)}`;
  const stamp = stampOf(own);
  const kept = all.get(key);
  if (kept !== undefined && kept.stamp === stamp) return kept;
  const known = loadPublished(resolve(dir, 'limits'));
  if (stamp === '') return keep(key, { stamp, sets: known, problems: [] });
  const sets = new Map(known);
  const problems: string[] = [];
  for (const file of listFiles(own)) {
    try {
      const set = readOwn(file, known);
      sets.set(idAsFile(set, file), set);
    } catch (error) {
      if (!(error instanceof ContentProblem)) throw error;
      problems.push(error.message);
    }
  }
  return keep(key, { stamp, sets, problems });
}

function keep(key: string, loaded: Loaded): Loaded {
  all.set(key, loaded);
  return loaded;
}

/** @throws ContentProblem */
function readOwn(file: ContentFile, known: Sets): LimitSet {
  return readYaml(file, (value) => {
    const own = read(value, { known, changes: 'stricter' });
    if (own.ok && known.has(own.value.id)) {
      const message = `id must not be ${own.value.id}, which is a published set.`;
      return { ok: false, error: { path: 'id', message } };
    }
    return own;
  });
}

/**
 * Every limit set by its id: the published ones in the order of their ids, then the organisation's.
 * An own set that cannot be read is not among them; `ownLimitProblems` says why.
 * @param dir the content folder  @param own the folder of the organisation's own sets
 * @throws ContentProblem when a published set cannot be read
 */
export const loadLimitSets = (dir = 'content', own = ownFolder()): Sets => loadAll(dir, own).sets;

/** What is wrong with own sets that were left out, one sentence each with file and line. */
export const ownLimitProblems = (dir = 'content', own = ownFolder()): readonly string[] =>
  loadAll(dir, own).problems;

/**
 * An organisation's own set from any file.
 * @param known the sets it may extend, and whose ids it may not take
 * @throws ContentProblem
 */
export const loadLimitSetFile = (path: string, known: Sets): LimitSet =>
  readOwn({ name: basename(path), path: resolve(path) }, known);
