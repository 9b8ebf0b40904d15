import type { Answer as FormAnswer, ShownTask, Work } from '../../../assessment/index.ts';
import type {
  EndedSitting,
  SavedSitting,
  SittingCard,
  SittingGiven,
  SittingOpened,
  TimeChoice,
} from '../../../attempts/index.ts';
import type { Answer } from '../../bench/work/protocol.ts';
import { post } from '../../bench/work/server.ts';

/** What passes between this panel and the server. No key, no seed, no verdict comes here. */
export type {
  EndedSitting,
  FormAnswer,
  SavedSitting,
  ShownTask,
  SittingCard,
  SittingGiven,
  SittingOpened,
  TimeChoice,
  Work,
};
export type TaskOf<Kind extends ShownTask['kind']> = Extract<ShownTask, { kind: Kind }>;

type Held = { readonly attempt: string; readonly hold: string };
type Sent = Held & { readonly revision: number; readonly work: Work };

export type SittingServer = {
  readonly open: (ask: {
    readonly blueprint: string;
    readonly hold: string;
    readonly how: 'look' | 'begin' | 'take-over';
    readonly time: TimeChoice;
  }) => Promise<Answer<SittingOpened>>;
  readonly save: (sent: Sent & { readonly pause: boolean }) => Promise<Answer<SavedSitting>>;
  readonly more: (held: Held) => Promise<Answer<SavedSitting>>;
  readonly handIn: (sent: Sent) => Promise<Answer<EndedSitting>>;
};

export function connectSitting(ask: typeof fetch): SittingServer {
  return {
    open: (body) => post(ask, '/api/sittings', body),
    save: (body) => post(ask, '/api/sittings/save', body),
    more: (body) => post(ask, '/api/sittings/more', body),
    handIn: (body) => post(ask, '/api/sittings/hand-in', body),
  };
}
