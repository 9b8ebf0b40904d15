/** Kinds of work done on a saw bench: the same words as `job.cut` in a bench file. */
export const WORK_KINDS = ['rip', 'crosscut', 'bevel', 'deep', 'rebate', 'groove'] as const;
export type Work = (typeof WORK_KINDS)[number];

const NAMES: Record<Work, string> = {
  rip: 'ripping',
  crosscut: 'crosscutting',
  bevel: 'bevel cutting',
  deep: 'deep cutting',
  rebate: 'rebating',
  groove: 'grooving',
};

export const isWork = (text: string): text is Work => Object.hasOwn(NAMES, text);

/** The kind of work as a person says it: "ripping". A word we do not know is shown as it stands. */
export const nameWork = (work: string): string => (isWork(work) ? NAMES[work] : work);
