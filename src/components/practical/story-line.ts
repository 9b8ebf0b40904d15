import type { Statement } from '../../records/index.ts';

type Base = {
  readonly id: string;
  /** when the site entered it */
  readonly at: string;
  /** who did it */
  readonly by: string;
  /** its bytes are not the ones that were entered: shown, and counts for nothing */
  readonly altered: boolean;
};

/** One line of what became of a signed practical. */
export type StoryLine = Base &
  /** an error stopped the same practical in another unit */
  (
    | { readonly kind: 'stopped'; readonly words: null }
    | { readonly kind: 'signed'; readonly decision: Statement['decision'] }
    | {
        readonly kind: 'cosigned';
        readonly answer: 'agrees' | 'disagrees';
        readonly words: string | null;
      }
    | {
        readonly kind: 'answered';
        readonly answer: 'agrees' | 'disagrees' | 'appeals';
        readonly words: string | null;
      }
    | {
        readonly kind: 'settled';
        readonly appeal: string;
        readonly outcome: 'stands' | 'watch-again';
        readonly words: string;
      }
    | { readonly kind: 'withdrawn'; readonly words: string }
  );
