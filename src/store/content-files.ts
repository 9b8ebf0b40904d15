import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { type Document, LineCounter, parseDocument } from 'yaml';
import { type Task, TaskSchema } from '../assessment/index.ts';
import { type Bench, describeProblem, type Problem, readBench } from '../bench/index.ts';
import { readUnit, type Unit } from '../competence/index.ts';
import {
  type FaultCatalogue,
  joinFaults,
  type LimitSet,
  readFaults,
  readLimitSet,
} from '../limits/index.ts';

/**
 * The one loader of the files a trainer may write: content/limits, faults, benches, tasks, units.
 * Each file is parsed, checked by its schema, frozen and kept; a fault in one names file and line.
 */

/** A content file that cannot be used, as one sentence for its author. */
export class ContentProblem extends Error {
  override readonly name = 'ContentProblem';
}

/** What a reader of a parsed file gives back. */
type Read<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly error: Problem };

type ContentFile = { readonly name: string; readonly path: string };

function listFiles(folder: string): ContentFile[] {
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

/** The line on which a field stands, or the nearest group around it. */
function lineOf(path: string, document: Document, lines: LineCounter): number {
  for (let keys = pathKeys(path); keys.length > 0; keys = keys.slice(0, -1)) {
    const node: unknown = document.getIn(keys, true);
    const range = (node as { range?: readonly number[] } | undefined)?.range;
    if (range?.[0] !== undefined) return lines.linePos(range[0]).line;
  }
  return 1;
}

function readYaml<Value>(file: ContentFile, read: (value: unknown) => Read<Value>): Value {
  const lines = new LineCounter();
  const text = readFileSync(file.path, 'utf8');
  const document = parseDocument(text, { lineCounter: lines });
  const where = relative(process.cwd(), file.path);
  const broken = document.errors[0];
  if (broken !== undefined) {
    const { line } = lines.linePos(broken.pos[0]);
    const [reason] = broken.message.split('\n');
    throw new ContentProblem(`${where}, line ${line}: not valid YAML: ${reason ?? ''}`);
  }
  const result = read(document.toJS());
  if (result.ok) return freeze(result.value);
  const line = lineOf(result.error.path, document, lines);
  throw new ContentProblem(`${where}, line ${line}: ${result.error.message}`);
}

/** Freezes plain data all the way down; what it holds is shared by every request. */
function freeze<Value>(value: Value): Value {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value;
  Object.freeze(value);
  for (const inner of Object.values(value)) freeze(inner);
  return value;
}

const loaded = new Map<string, unknown>();

/** Reads a folder once for the life of the process. */
function once<Value>(dir: string, kind: string, load: (folder: string) => Value): Value {
  const folder = resolve(dir, kind);
  if (!loaded.has(folder)) loaded.set(folder, load(folder));
  return loaded.get(folder) as Value;
}

function loadFolder<Value>(
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
function idAsFile(value: { readonly id: string }, file: ContentFile): string {
  if (value.id !== file.name) {
    throw new ContentProblem(
      `${relative(process.cwd(), file.path)}: id must be ${file.name}, as the file is named.`,
    );
  }
  return value.id;
}

/**
 * Every limit set by its id, in the order of the ids.
 * @param dir the content folder
 * @throws ContentProblem
 */
export function loadLimitSets(dir = 'content'): ReadonlyMap<string, LimitSet> {
  return once(dir, 'limits', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readLimitSet(value);
        return read.ok ? { ok: true, value: read.set } : read;
      },
      idAsFile,
    ),
  );
}

/** The whole fault catalogue. @throws ContentProblem */
export function loadFaultCatalogue(dir = 'content'): FaultCatalogue {
  return once(dir, 'faults', (folder) => {
    const files = listFiles(folder).map((file) =>
      readYaml(file, (value) => {
        const read = readFaults(value);
        return read.ok ? { ok: true, value: read.entries } : read;
      }),
    );
    try {
      return freeze(joinFaults(files));
    } catch (error) {
      throw new ContentProblem(`${relative(process.cwd(), folder)}: ${(error as Error).message}.`);
    }
  });
}

/** Every bench by the name of its file. @throws ContentProblem */
export function loadBenches(dir = 'content'): ReadonlyMap<string, Bench> {
  return once(dir, 'benches', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readBench(value);
        return read.ok ? { ok: true, value: read.bench } : read;
      },
      (_bench, file) => file.name,
    ),
  );
}

/** Every bench task by its id. @throws ContentProblem */
export function loadTasks(dir = 'content'): ReadonlyMap<string, Task> {
  return once(dir, 'tasks', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const parsed = TaskSchema.safeParse(value);
        return parsed.success
          ? { ok: true, value: parsed.data }
          : { ok: false, error: describeProblem(parsed.error, 'The task') };
      },
      idAsFile,
    ),
  );
}

/** Every competence unit by its id, in the order of the course. @throws ContentProblem */
export function loadUnits(dir = 'content'): ReadonlyMap<string, Unit> {
  return once(dir, 'units', (folder) =>
    loadFolder(
      folder,
      (value) => {
        const read = readUnit(value);
        return read.ok ? { ok: true, value: read.unit } : read;
      },
      (unit) => unit.id,
    ),
  );
}
