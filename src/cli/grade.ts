import { fileURLToPath } from 'node:url';
import { type Bench, type Problem, readBench } from '../bench/index.ts';
import {
  compareRules,
  type GradeReport,
  gradeBench,
  type Rules,
  reportComparison,
  reportGrade,
} from '../grading/index.ts';
import type { LimitSet } from '../limits/index.ts';
import {
  ContentProblem,
  loadFaultCatalogue,
  loadLimitSetFile,
  loadLimitSets,
  ownLimitProblems,
} from '../store/content-files.ts';
import { drawComparison } from './compare-table.ts';
import { InputProblem, isSetFile, readGradeArguments, USAGE } from './grade-arguments.ts';
import { type InputLine, locate, parseText, readLines, readWhole } from './grade-input.ts';
import { drawGrade } from './grade-table.ts';

/**
 * Grades bench files against limit sets. Exit code 0: fit to run; 1: not fit; 2: bad input, with
 * one sentence on standard error. With --lines: 0 unless the file cannot be read.
 */

const FIT = 0;
const NOT_FIT = 1;
const BAD_INPUT = 2;

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));

type Graded =
  | { readonly ok: true; readonly bench: Bench; readonly grade: ReturnType<typeof gradeBench> }
  | { readonly ok: false; readonly error: Problem };

function gradeText(text: string, whole: string, rules: Rules): Graded {
  const parsed = parseText(text);
  if (!parsed.ok) return { ok: false, error: { path: '', message: `${whole} ${parsed.reason}.` } };
  const read = readBench(parsed.value);
  if (!read.ok) return read;
  const { bench } = read;
  return { ok: true, bench, grade: gradeBench({ bench, ...rules }) };
}

type LineReport = GradeReport | { readonly error: Problem };

function gradeLine(line: InputLine, rules: Rules): LineReport {
  if (line === null) {
    return { error: { path: '', message: 'The line is too long to be a bench: at most 1 MB.' } };
  }
  const graded = gradeText(line, 'The line', rules);
  return graded.ok ? reportGrade(graded.grade) : { error: graded.error };
}

/** Writes and waits when the reader is slower than we are. */
async function write(text: string): Promise<void> {
  if (process.stdout.write(text)) return;
  await new Promise((done) => process.stdout.once('drain', done));
}

async function gradeLines(file: string, rules: Rules): Promise<number> {
  for await (const line of readLines(file)) {
    await write(`${JSON.stringify(gradeLine(line, rules))}\n`);
  }
  return FIT;
}

async function gradeFile(
  file: string,
  form: 'table' | 'json',
  rules: Rules & { readonly sets: readonly LimitSet[] },
): Promise<number> {
  const name = file === '-' ? 'Standard input' : file;
  const graded = gradeText(await readWhole(file), 'The bench file', rules);
  if (!graded.ok) throw new InputProblem(`${name}: ${graded.error.message}`);
  const { bench, grade } = graded;
  const compared = rules.sets.length > 1 ? compareRules({ bench, ...rules }) : null;
  if (form === 'json') {
    const parted = compared === null ? {} : reportComparison(compared);
    await write(`${JSON.stringify({ ...reportGrade(grade), ...parted })}\n`);
  } else {
    if (compared !== null) await write(drawComparison(compared));
    await write(drawGrade(grade, rules.sets));
  }
  return grade.fit ? FIT : NOT_FIT;
}

/** The set of an id, or of a file; a file may tighten a published set. @throws ContentProblem */
async function findSet(name: string, known: ReadonlyMap<string, LimitSet>): Promise<LimitSet> {
  const set = known.get(name);
  if (set !== undefined && !isSetFile(name)) return set;
  const published = new Map([...known].filter(([, { basis }]) => basis !== 'own'));
  return loadLimitSetFile(await locate(name), published);
}

async function run(words: readonly string[]): Promise<number> {
  const known = loadLimitSets(CONTENT);
  const asked = readGradeArguments(words, [...known.keys()], ownLimitProblems(CONTENT));
  if (asked === 'help') {
    await write(`${USAGE}\nLimit sets: ${[...known.keys()].join(', ')}\n`);
    return FIT;
  }
  const rules = {
    sets: await Promise.all(asked.sets.map((name) => findSet(name, known))),
    catalogue: loadFaultCatalogue(CONTENT),
    uncertainty: asked.uncertainty,
  };
  return asked.form === 'lines'
    ? gradeLines(asked.file, rules)
    : gradeFile(asked.file, asked.form, rules);
}

// a reader that has seen enough (`| head`) closes the pipe; that is no error of ours
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? FIT : BAD_INPUT);
});

try {
  process.exitCode = await run(process.argv.slice(2));
} catch (error) {
  const expected = error instanceof InputProblem || error instanceof ContentProblem;
  const message = expected ? error.message : `The bench cannot be graded: ${String(error)}`;
  process.stderr.write(`${message.replace(/\s+/g, ' ')}\n`);
  process.exitCode = BAD_INPUT;
}
