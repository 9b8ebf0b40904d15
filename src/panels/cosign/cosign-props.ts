import type { Statement } from '../../records/index.ts';

/** What the page hands to the form of a second trainer: the record as it was shown, and who is reading it. */
export type CosignProps = {
  readonly statement: Statement;
  readonly trainer: {
    readonly person: string;
    readonly name: string;
    readonly nameHash: string;
  };
  /** whether the reader has a passkey that works at this address */
  readonly passkey: 'yes' | 'no';
  /** where to go once it is signed */
  readonly done: string;
};
