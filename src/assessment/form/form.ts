import type { Bench, MeasureId } from '../../bench/index.ts';
import type { RackBlade, RackKnife } from '../../grading/index.ts';
import type { FaultPart } from '../../limits/index.ts';
import type { SlotKind } from '../blueprint/index.ts';
import type { Margin } from '../plant/spoiler.ts';

/** What every task of a form has. `id` is its kind, with a number where there are several of one. */
type Task<Kind extends SlotKind> = {
  readonly id: string;
  readonly kind: Kind;
  /** its share of the score, against the weights of the other tasks */
  readonly weight: number;
  /** per cent of people at the end of training who would get it right, an estimate; never sent */
  readonly estimate: number;
};

/** One fault that was put on a bench. Which faults the bench has is still for the engine to say. */
export type Planted = {
  readonly fault: string;
  readonly margin: Margin;
  /** per cent who find it, an estimate */
  readonly estimate: number;
};

/** Something that looks odd and is in order. */
export type PlantedLookAlike = {
  readonly lookAlike: string;
  readonly part: FaultPart;
  /** the fault it may be taken for */
  readonly like: string;
  readonly estimate: number;
};

export type FindTask = Task<'find'> & {
  readonly bench: Bench;
  readonly planted: readonly Planted[];
  readonly lookAlikes: readonly PlantedLookAlike[];
};

/** A table insert with a slot of so many mm. */
export type InsertChoice = { readonly id: string; readonly slot: number };

export type SetTask = Task<'set'> & {
  /** as the last job left it; its `job` is the one to set it for */
  readonly bench: Bench;
  /** what of the rack is on it at the start */
  readonly mounted: { readonly blade: string; readonly knife: string; readonly insert: string };
  readonly blades: readonly RackBlade[];
  readonly knives: readonly RackKnife[];
  readonly inserts: readonly InsertChoice[];
  /** what is to be brought within the limits; the fence is set to the width of cut besides */
  readonly settings: readonly MeasureId[];
};

/** mm in the frame of the bench: where the operator stands while feeding. */
export type Stance = { readonly id: string; readonly x: number; readonly z: number };
/** A stick to feed with, and over which last part of the cut, mm; `length` 0 is the bare hand. */
export type Stick = { readonly id: string; readonly length: number; readonly usedForLast: number };
/** Who or what carries the finished end: nobody, somebody who stands `at` x, or an extension to `at` x. */
export type EndCare = {
  readonly id: string;
  readonly by: 'nobody' | 'taker-off' | 'extension';
  readonly at: number | null;
};

export type PlanTask = Task<'plan'> & {
  readonly bench: Bench;
  readonly stances: readonly Stance[];
  readonly sticks: readonly Stick[];
  readonly ends: readonly EndCare[];
};

export type ReactTask = Task<'react'> & {
  readonly situation: string;
  readonly title: string;
  readonly tells: string;
  /** in an order that tells nothing; `from` says where in the content each stands, and is never sent */
  readonly choices: readonly {
    readonly id: string;
    readonly text: string;
    readonly from: { readonly list: 'steps' | 'slips'; readonly index: number };
  }[];
};

/** `figure`: give the end of the limit. `within`: tell which readings meet it. */
export type LimitTask = Task<'limit'> & {
  readonly bench: Bench;
  readonly ask: 'figure' | 'within';
  readonly set: string;
  readonly setTitle: string;
  /** what is limited, in the words of the set */
  readonly title: string;
  readonly end: 'min' | 'max';
  readonly unit: string;
  /** readings to sort, in `unit`; empty where a figure is asked */
  readonly readings: readonly { readonly id: string; readonly value: number }[];
  /** the limit it is about; never sent */
  readonly limit: string;
};

export type FormTask = FindTask | SetTask | PlanTask | ReactTask | LimitTask;
export type TaskOf<Kind extends SlotKind> = Extract<FormTask, { kind: Kind }>;

/** One sitting's test, whole: made on the server from a seed, never stored and never sent. */
export type Form = {
  readonly blueprint: { readonly id: string; readonly version: number };
  readonly generator: string;
  readonly seed: string;
  readonly tasks: readonly FormTask[];
};
