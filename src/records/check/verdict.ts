/** What a check of a proof comes to. These words are used wherever a proof is checked. */
export const VERDICTS = [
  'genuine',
  'altered',
  'not from a trusted signer',
  'withdrawn',
  'ended',
  'unknown as of a date',
] as const;

export type VerdictWord = (typeof VERDICTS)[number];

/** What is looked at, in this order. */
export type CheckId =
  | 'form'
  | 'signer'
  | 'credential'
  | 'checkpoint'
  | 'log'
  | 'enrolment'
  | 'device'
  | 'basis'
  | 'second'
  | 'match'
  | 'trainee'
  | 'giver'
  | 'trainer'
  | 'left-out'
  | 'period'
  | 'withdrawal';

export type Check = {
  readonly id: CheckId;
  /** unknown: the file does not say, or not for that date */
  readonly state: 'ok' | 'failed' | 'unknown';
  readonly sentence: string;
};

/** A check from what is wrong, null for nothing, and what to say when nothing is. */
export const judge = (id: CheckId, fault: string | null, holds: string): Check =>
  fault === null ? { id, state: 'ok', sentence: holds } : { id, state: 'failed', sentence: fault };

/** The first two checks of every proof that could be read: its form, and whether its signer is one of the trusted. */
export const checkSigner = (isTrusted: boolean): Check[] => [
  judge('form', null, 'The file has the form of a proof.'),
  judge(
    'signer',
    isTrusted ? null : 'The signer is not in the list of signers you trust.',
    'The signer is in the list of signers you trust.',
  ),
];

/** What the record says, once it was found whole and from a trusted signer. */
export type ProvedRecord = ProvedPractical | ProvedAuthorisation;

export type ProvedPractical = {
  readonly kind: 'practical';
  /** null where the holder left the name out */
  readonly trainee: string | null;
  readonly trainer: string | null;
  readonly organisation: string;
  readonly signoff: string;
  readonly unit: string;
  readonly work: string;
  readonly bench: string;
  readonly observedAt: string;
  readonly validFrom: string;
  readonly validUntil: string;
};

/** One practical that leave to work rests on, as far as the file shows it. */
export type PracticalShown = {
  readonly signoff: string;
  readonly unit: string;
  readonly observedAt: string;
  /** null where the name is left out */
  readonly trainer: string | null;
  /** `nothing`: that it was passed; `results`: each criterion; `all`: the signed statement itself */
  readonly shown: 'nothing' | 'results' | 'all';
  readonly criteria: readonly { readonly text: string; readonly result: string }[];
  readonly settings: readonly {
    readonly measure: string;
    readonly value: number;
    readonly unit: string;
    readonly instrument: string;
    readonly verdict: string;
  }[];
};

export type ProvedAuthorisation = {
  readonly kind: 'authorisation';
  readonly trainee: string | null;
  /** who gave it */
  readonly giver: string | null;
  readonly organisation: string;
  readonly authorisation: string;
  readonly work: readonly string[];
  readonly bench: string;
  /** sort of machine */
  readonly machine: string;
  readonly supervised: 'always' | 'as-usual';
  /** mm; null where nothing is said */
  readonly largest: { readonly thickness: number | null; readonly length: number | null };
  readonly conditions: readonly string[];
  readonly practicals: readonly PracticalShown[];
  readonly validFrom: string;
  readonly validUntil: string;
};

export type Verdict = {
  readonly verdict: VerdictWord;
  /** what the verdict rests on when it is "unknown as of a date": the date, else null */
  readonly asOf: string | null;
  readonly sentence: string;
  readonly checks: readonly Check[];
  /** null when the file was altered or its signer is not trusted: nothing in it can be relied on */
  readonly record: ProvedRecord | null;
  /** what no check of this file can tell */
  readonly cannotKnow: readonly string[];
};

/** What more cannot be told from a file in which something was left out. */
export const CANNOT_KNOW_LEFT_OUT =
  'What the holder left out of this file was not looked at here. Ask the holder for the fuller file if you need it.';

export const CANNOT_KNOW: readonly string[] = [
  'The record stood in the log when the checkpoint in this file was signed. A log held by one party alone cannot stop that party from rewriting it: only a checkpoint that somebody else kept can show that.',
  'That the practical went as written rests on the trainer who signed, and on the device having been in their hands.',
  'Whether the device key was reported lost, or the sign-off withdrawn, after the status list in this file was made.',
  "This is an employer's record of supervised competence, not a licence. Local law, the maker's manual and a competent person at the machine come first.",
];
