import { resolve } from 'node:path';
import { checkContent } from '../content-check/index.ts';
import { ContentProblem } from '../store/content-files.ts';
import { loadCourse } from './read-course.ts';

/**
 * Checks the lessons and all they use: `npm run content`, or `npm run content -- ID` for one lesson.
 * Exit code 0: nothing is wrong; 1: problems, one line each; 2: no such lesson.
 */

const RIGHT = 0;
const PROBLEMS = 1;
const BAD_INPUT = 2;

function run([only, ...rest]: readonly string[]): number {
  if (rest.length > 0 || only?.startsWith('-')) {
    console.error('Usage: npm run content, or npm run content -- LESSON for one lesson.');
    return BAD_INPUT;
  }
  const course = loadCourse(resolve(import.meta.dirname, '../..'));
  const ids = [...new Set(course.lessons.map(({ id }) => id))];
  if (only !== undefined && !ids.includes(only)) {
    console.error(`There is no lesson ${only}; there are ${ids.join(', ')}.`);
    return BAD_INPUT;
  }
  const flaws = checkContent(course, only);
  for (const { file, line, says, weight } of flaws) {
    console.log(
      `${file}:${line}: ${weight === 'note' ? 'note: ' : ''}${says.replace(/\s+/g, ' ')}`,
    );
  }
  const problems = flaws.filter(({ weight }) => weight === 'problem').length;
  const notes = flaws.length - problems;
  const what = only === undefined ? `Lessons: ${ids.length}` : `Lesson: ${only}`;
  console.log(`${what}. Problems: ${problems}. Notes: ${notes}.`);
  return problems === 0 ? RIGHT : PROBLEMS;
}

try {
  process.exitCode = run(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof ContentProblem)) throw error;
  console.log(error.message);
  console.log('The lessons draw on this file; the rest is checked once it is right.');
  process.exitCode = PROBLEMS;
}
