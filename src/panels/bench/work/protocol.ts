import type { Action, Bench, MeasureId } from '../../../bench/index.ts';

/** What passes between this panel and the server. The page holds a bench and lists of words, no key. */

export type TaskCard = {
  readonly id: string;
  readonly title: string;
  readonly brief: string;
  readonly mode: 'practice' | 'test';
  /** the trainee looks for faults and writes them down */
  readonly faults: boolean;
  /** measures to bring within the limits */
  readonly settings: readonly MeasureId[];
  readonly limits: readonly string[];
};

/** The whole catalogue for every part, always the same: what may be written down. */
export type Choices = {
  readonly parts: readonly { readonly part: string; readonly title: string }[];
  readonly faults: readonly {
    readonly id: string;
    readonly part: string;
    readonly title: string;
  }[];
  readonly remedies: readonly { readonly id: string; readonly title: string }[];
};

export type Started = {
  readonly token: string;
  readonly attempt: string | null;
  readonly bench: Bench;
  readonly task: TaskCard;
  readonly choices: Choices;
};

export type Claim = { readonly part: string; readonly fault: string; readonly remedy: string };

export type Source = {
  readonly document: string;
  readonly clause?: string;
  readonly year?: number | string;
  readonly seen: 'primary' | 'secondary' | 'memory' | 'practice';
};

export type SettingResult = {
  readonly measure: string;
  readonly title: string;
  readonly value: number | boolean | string | null;
  readonly unit: string;
  readonly verdict: 'within' | 'outside' | 'too-close' | 'not-applicable' | 'advice';
  /** the limit in words */
  readonly limit: string;
  readonly margin: number | null;
  readonly closeness: number | null;
  readonly score: number | null;
  readonly critical?: boolean;
  readonly source: Source;
  readonly set: string;
};

export type Verdict = { readonly settings: readonly SettingResult[] };

export type FoundFault = { readonly fault: string; readonly part: string; readonly title: string };
export type MissedFault = FoundFault & { readonly why: string; readonly todo: string };

export type Outcome = {
  readonly attempt: string | null;
  readonly stored: boolean;
  readonly found: readonly FoundFault[];
  readonly missed: readonly MissedFault[];
  readonly wrong: readonly FoundFault[];
  readonly settings: readonly SettingResult[];
  /** sentences: what would have hurt somebody */
  readonly critical: readonly string[];
  readonly score: number;
  readonly fit: boolean;
};

export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      /** `offline`: nobody answered, trying again may help; `refused`: the server said no, and why */
      readonly kind: 'offline' | 'refused';
      readonly message: string;
    };

export type Server = {
  readonly start: (task: string) => Promise<Answer<Started>>;
  readonly verdict: (token: string, actions: readonly Action[]) => Promise<Answer<Verdict>>;
  readonly handIn: (
    token: string,
    actions: readonly Action[],
    claims: readonly Claim[],
  ) => Promise<Answer<Outcome>>;
};
