import type { StorePlace } from '../store.ts';
import type { Manifest } from './manifest.ts';

/** What a copy says of the moment it was taken. */
export type Copied = { readonly log: Manifest['log']; readonly tables: string };

/** How a store of one kind is copied into a file and made anew from it. */
export type BackupEngine = {
  readonly name: Manifest['engine'];
  /** name of the file in the folder of a backup */
  readonly file: string;
  /** Copies the store as it is at one moment, while others go on writing. */
  readonly copy: (to: string) => Promise<Copied>;
  /** @throws BackupProblem with one sentence when something lies where a backup is to be restored */
  readonly checkEmpty: () => Promise<void>;
  /** Makes the store from a copy, working in the folder `work`; resolves to where it is until it is settled. */
  readonly load: (from: string, work: string) => Promise<StorePlace>;
  /** Takes away what `load` made. */
  readonly clear: () => Promise<void>;
};
