import type {
  AuthorisationStatus,
  Day,
  MatrixCell,
  RegisteredBench,
} from '../../competence/index.ts';
import type { StoryLine } from '../../components/practical/story-line.ts';
import type { Authorisation, Statement, VerdictWord } from '../../records/index.ts';
import type { ContentText } from '../../store/index.ts';
import type { PackChoice } from './choice.ts';

/** A proof as a file of the pack, or why there is none. */
export type PackProof =
  | {
      readonly ok: true;
      readonly path: string;
      readonly bytes: Uint8Array;
      readonly verdict: VerdictWord;
    }
  | { readonly ok: false; readonly why: string };

export type PackLeave = {
  readonly statement: Authorisation;
  readonly status: AuthorisationStatus;
  readonly givenAt: string;
  readonly giver: string;
  readonly proof: PackProof;
  readonly address: string;
};

export type PackSheet = {
  readonly statement: Statement;
  readonly trainer: string;
  /** Multikey of the device that signed */
  readonly keyId: string;
  /** by the clock of the device, and of the site */
  readonly signedAt: string;
  readonly receivedAt: string;
  /** what a second trainer said, and what the person answered, up to then */
  readonly story: readonly StoryLine[];
  readonly photos: readonly { readonly digest: string; readonly jpeg: Uint8Array }[];
  readonly proof: PackProof;
  readonly address: string;
};

export type PackPerson = {
  readonly person: string;
  readonly name: string;
  readonly role: string;
  readonly cells: readonly MatrixCell[];
  readonly leaves: readonly PackLeave[];
  readonly sheets: readonly PackSheet[];
};

export type PackBench = RegisteredBench & { readonly service: 'in-service' | 'out-of-service' };

/** A text in force: a limit set, a unit or a lesson, with its version where it has one. */
export type PackText = ContentText & {
  readonly title: string;
  readonly version: string | null;
  readonly digest: string;
};

/** Everything a pack says, before it is written. */
export type PackContent = {
  readonly choice: PackChoice;
  /** when it was made, and the instant its day stands for */
  readonly made: string;
  readonly instant: string;
  readonly asOf: Day;
  readonly org: string;
  readonly organisation: string;
  readonly invented: boolean;
  /** records that were changed after they were entered */
  readonly altered: number;
  readonly people: readonly PackPerson[];
  readonly benches: readonly PackBench[];
  readonly limits: readonly PackText[];
  readonly units: readonly PackText[];
  readonly lessons: readonly PackText[];
  /** did:key of the site */
  readonly issuer: string;
  readonly log: { readonly origin: string; readonly size: number; readonly root: string };
  readonly checkpoint: string;
  readonly consistency: {
    readonly earlier: string;
    readonly size: number;
    readonly bytes: Uint8Array;
  } | null;
  readonly nameOf: (person: string) => string;
};
