import { fileURLToPath } from 'node:url';
import { type Problem, readBench } from '../bench/index.ts';
import { type GradeReport, gradeBench, type Rules, reportGrade } from '../grading/index.ts';
import type { LimitSet } from '../limits/index.ts';
import { ContentProblem, loadFaultCatalogue, loadLimitSets } from '../store/content-files.ts';
import { InputProblem, readGradeArguments, USAGE } from './grade-arguments.ts';
import { type InputLine, parseText, readLines, readWhole } from './grade-input.ts';
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
  | { readonly ok: true; readonly grade: ReturnType<typeof gradeBench> }
  | { readonly ok: false; readonly error: Problem };

function gradeText(text: string, whole: string, rules: Rules): Graded {
  const parsed = parseText(text);
  if (!parsed.ok) return { ok: false, error: { path: '', message: `${whole} ${parsed.reason}.` } };
  const read = readBench(parsed.value);
  return read.ok ? { ok: true, grade: gradeBench({ bench: read.bench, ...rules }) } : read;
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
  const { grade } = graded;
  await write(
    form === 'json' ? `${JSON.stringify(reportGrade(grade))}\n` : drawGrade(grade, rules.sets),
  );
  return grade.fit ? FIT : NOT_FIT;
}

async function run(words: readonly string[]): Promise<number> {
  const known = loadLimitSets(CONTENT);
  const asked = readGradeArguments(words, [...known.keys()]);
  if (asked === 'help') {
    await write(`${USAGE}\nLimit sets: ${[...known.keys()].join(', ')}\n`);
    return FIT;
  }
  const rules = {
    sets: asked.sets.flatMap((id) => known.get(id) ?? []),
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
