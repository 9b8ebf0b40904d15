import type { AttemptMark, PersonTests } from '../../attempts/index.ts';
import type {
  AuthorisationStatus,
  RegisteredBench,
  Told,
  WorkStatus,
} from '../../competence/index.ts';
import type { Authorisation } from '../../records/index.ts';
import type { Stuck } from './stuck-on.ts';

/** One kind of work on one bench that somebody has begun. */
export type BoardWork = {
  readonly bench: RegisteredBench;
  readonly work: string;
  readonly status: WorkStatus;
  /** units signed off */
  readonly held: number;
  /** the first unit that is missing, and why; null when none is */
  readonly next: { readonly title: string; readonly number: number; readonly told: Told } | null;
};

/** One line of the trainer's board. */
export type BoardRow = {
  readonly person: string;
  readonly name: string;
  readonly lessons: { readonly done: number; readonly all: number };
  readonly tests: PersonTests;
  /** newest attempt handed in */
  readonly last: AttemptMark | null;
  readonly attempts: number;
  /** confirmed practice, h */
  readonly practice: number;
  readonly works: readonly BoardWork[];
  /** authorisations that have not ended */
  readonly leave: readonly {
    readonly status: AuthorisationStatus;
    readonly statement: Authorisation;
  }[];
  readonly due: number;
  readonly stuck: readonly Stuck[];
};
