import type { MeasureId } from '../../bench/index.ts';
import type { Fault, Result } from '../../limits/index.ts';
import type { Situation } from '../blueprint/index.ts';

/** What is right in each task, worked out when it is asked for and never stored. */
export type FindKey = { readonly kind: 'find'; readonly faults: readonly Fault[] };

export type SetKey = {
  readonly kind: 'set';
  /** blades that fit the job, with how well, 0 to 100 */
  readonly blades: readonly { readonly id: string; readonly worth: number }[];
  /** inserts whose slot clears the cut of each blade and is not too wide for it */
  readonly inserts: Readonly<Record<string, readonly string[]>>;
  readonly settings: readonly MeasureId[];
};

export type PlanPart = 'stance' | 'stick' | 'end';
/** The faults each choice would bring; the right ones bring none. */
export type PlanKey = {
  readonly kind: 'plan';
  readonly parts: Readonly<
    Record<PlanPart, readonly { readonly id: string; readonly faults: readonly Fault[] }[]>
  >;
};

export type ReactKey = {
  readonly kind: 'react';
  readonly steps: readonly (Situation['steps'][number] & { readonly id: string })[];
  readonly slips: readonly (Situation['slips'][number] & { readonly id: string })[];
};

export type LimitKey = {
  readonly kind: 'limit';
  /** in the unit asked for */
  readonly figure: number;
  /** how far an answer may lie from it */
  readonly within: number;
  readonly readings: readonly { readonly id: string; readonly meets: boolean }[];
  readonly source: Result['source'];
};

export type TaskKey = FindKey | SetKey | PlanKey | ReactKey | LimitKey;
/** By the id of the task. */
export type FormKey = Readonly<Record<string, TaskKey>>;
