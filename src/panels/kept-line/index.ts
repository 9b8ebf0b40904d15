export { showKeptBenches } from './kept-benches.ts';
export { startKeptLine } from './kept-line.ts';
