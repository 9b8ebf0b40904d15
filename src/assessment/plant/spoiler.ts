import type { Bench } from '../../bench/index.ts';
import type { LimitSet } from '../../limits/index.ts';
import type { Sense } from '../blueprint/index.ts';
import type { Random } from '../random.ts';

/** `near` or `far` past a limit; `plain` where there is none and a thing is simply so. */
export type Margin = 'near' | 'far' | 'plain';

/** What a spoiler works with. */
export type Given = {
  readonly bench: Bench;
  readonly random: Random;
  /** limit sets in force: how far is far enough is read from them */
  readonly sets: readonly LimitSet[];
  /** how many of the least steps that can be told apart to go past the limit, [least, most] */
  readonly steps: readonly [number, number];
};

/**
 * A way a bench goes wrong. It moves the state; that this makes the fault it names, and no other, is
 * tried against the engine before it stands.
 */
export type Spoiler = {
  /** id of the fault in the catalogue */
  readonly fault: string;
  /** what it touches: of one group only one is used on a bench */
  readonly group: string;
  readonly sense: Sense;
  readonly margins: readonly Margin[];
  /** @returns null where it has no meaning on this bench or under these limits */
  readonly spoil: (given: Given) => Bench | null;
};

/** Something that looks odd and is in order. */
export type LookAlike = {
  readonly id: string;
  readonly group: string;
  /** the fault it may be taken for */
  readonly like: string;
  readonly apply: (given: Given) => Bench | null;
};
