export { showKeptBenches } from './kept-benches.ts';
export { keepQuietly } from './kept-course.ts';
export { startKeptLine } from './kept-line.ts';
