import type { Interval, Showing } from '../../grading/index.ts';

/** A small sample stays quiet, and says from how many it would speak. */
export const sayQuiet = ({ least, have }: Showing, of = 'attempts'): string =>
  `Shown from ${least} ${of} on; ${have} so far.`;

/** A share as whole per cent. */
export const sayPercent = (share: number): string => `${Math.round(100 * share)} %`;

/** A figure between -1 and 1, with two decimals and a true minus. */
export const sayFigure = (value: number): string => value.toFixed(2).replace('-', '−');

/** What a reliability of this size is good for: common practice, no source. */
export function sayReliability(alpha: number): string {
  if (alpha >= 0.8) return 'enough to decide about one person';
  if (alpha >= 0.6) return 'enough to talk about, too little to decide by alone';
  return 'too little: who comes out above whom is mostly luck';
}

/** What a correlation with the rest tells. The ends are common practice, no source. */
export function sayDiscrimination(value: number): string {
  if (value < 0) return 'the better people do worse here: look at the question itself';
  if (value < 0.15) return 'tells little';
  return value < 0.3 ? 'tells something' : 'tells well';
}

export const PART_TITLES: Readonly<Record<string, string>> = {
  find: 'Faults named',
  set: 'Settings',
  read: 'Readings taken',
  plan: 'Plan of the cut',
  react: 'Trouble at the bench',
  limit: 'Figure of the rules',
};

/** A part of a test by its id, such as react-2. */
export function sayPart(id: string): string {
  const [kind = id, number] = id.split(/-(?=\d+$)/);
  const title = PART_TITLES[kind] ?? id;
  return number === undefined ? title : `${title}, ${number}`;
}

/** What was thought of a fault, held against what was counted. */
export function sayThought(thought: number, { low, high }: Interval): string {
  const off = thought < low ? ': easier than that' : thought > high ? ': harder than that' : '';
  return `thought to be ${sayPercent(thought)}${off}`;
}
