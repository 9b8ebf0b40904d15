import type { SaidBeforehand } from '../../../assessment/index.ts';
import type {
  Given,
  HandedIn,
  SaidClaim,
  SaidFault,
  SaidSetting,
} from '../../../attempts/index.ts';
import type { Action } from '../../../bench/index.ts';

/** What passes between this panel and the server. The page holds a bench and lists of words, no key. */
export type Started = Omit<Given, 'task'> & { readonly task: TaskCard };
export type Choices = Given['choices'];
export type TaskCard = Given['task'] & {
  /** a task of a form: it is handed in with the others, and asks how sure one is of each finding */
  readonly sitting?: true;
};
export type Outcome = HandedIn;
export type SettingResult = SaidSetting;
export type Verdict = { readonly settings: readonly SettingResult[] };
export type { SaidBeforehand, SaidClaim, SaidFault };

export type Claim = {
  readonly part: string;
  readonly fault: string;
  readonly remedy: string;
  /** how sure; asked in a form only */
  readonly confidence?: string;
};

export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      /** `offline`: nobody answered, trying again may help; `refused`: the server said no, and why */
      readonly kind: 'offline' | 'refused';
      readonly message: string;
      /** the field it is about, where the server named one */
      readonly path?: string;
    };

export type Server = {
  readonly start: (task: string) => Promise<Answer<Started>>;
  readonly verdict: (token: string, actions: readonly Action[]) => Promise<Answer<Verdict>>;
  readonly handIn: (
    token: string,
    actions: readonly Action[],
    claims: readonly Claim[],
    said: readonly SaidBeforehand[],
  ) => Promise<Answer<Outcome>>;
};
