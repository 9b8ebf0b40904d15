import type { Role, Viewer } from './viewer.ts';

/**
 * How far a role reaches for one action, always inside its own organisation:
 * `no`: never; `own`: only about themselves; `others`: about anyone but themselves; `all`: about anyone.
 */
type Reach = 'no' | 'own' | 'others' | 'all';

/**
 * Who may do what. One row per action, one column per role; whatever is not here is refused.
 * An employer reads practicals and never writes them; what an employer gives, suspends and ends is leave to
 * work at a machine, and the key of a device that its trainer has lost. Nobody signs, withdraws, settles or authorises about themselves.
 */
export const PERMISSIONS = {
  //                      trainee          trainer            employer
  'attempt.make': { trainee: 'own', trainer: 'own', employer: 'no' },
  'attempt.read': { trainee: 'own', trainer: 'all', employer: 'no' },
  'attempt.set': { trainee: 'no', trainer: 'others', employer: 'no' },
  'attempt.release': { trainee: 'no', trainer: 'others', employer: 'no' },
  'person.read': { trainee: 'own', trainer: 'all', employer: 'all' },
  'people.list': { trainee: 'no', trainer: 'all', employer: 'all' },
  'board.read': { trainee: 'no', trainer: 'all', employer: 'no' },
  'who-may.read': { trainee: 'no', trainer: 'all', employer: 'all' },
  'export.make': { trainee: 'no', trainer: 'all', employer: 'all' },
  'bench.read': { trainee: 'all', trainer: 'all', employer: 'all' },
  'bench.check': { trainee: 'all', trainer: 'all', employer: 'no' },
  'bench.take-out': { trainee: 'all', trainer: 'all', employer: 'all' },
  'bench.return': { trainee: 'no', trainer: 'all', employer: 'no' },
  'near-miss.report': { trainee: 'all', trainer: 'all', employer: 'all' },
  'bench.register': { trainee: 'no', trainer: 'all', employer: 'no' },
  'practical.read': { trainee: 'own', trainer: 'all', employer: 'all' },
  'practical.write': { trainee: 'no', trainer: 'others', employer: 'no' },
  'practical.sign': { trainee: 'no', trainer: 'others', employer: 'no' },
  'practical.withdraw': { trainee: 'no', trainer: 'others', employer: 'no' },
  'practical.cosign': { trainee: 'no', trainer: 'others', employer: 'no' },
  'practical.answer': { trainee: 'own', trainer: 'own', employer: 'no' },
  'appeal.settle': { trainee: 'no', trainer: 'others', employer: 'others' },
  'practice.note': { trainee: 'own', trainer: 'all', employer: 'no' },
  'practice.confirm': { trainee: 'others', trainer: 'others', employer: 'no' },
  'practice.read': { trainee: 'own', trainer: 'all', employer: 'all' },
  'authorisation.read': { trainee: 'own', trainer: 'all', employer: 'all' },
  'authorisation.give': { trainee: 'no', trainer: 'others', employer: 'others' },
  'authorisation.second': { trainee: 'no', trainer: 'others', employer: 'others' },
  'authorisation.suspend': { trainee: 'no', trainer: 'others', employer: 'others' },
  'authorisation.refresh': { trainee: 'no', trainer: 'others', employer: 'no' },
  'authorisation.end': { trainee: 'no', trainer: 'others', employer: 'others' },
  'rules.set': { trainee: 'no', trainer: 'all', employer: 'all' },
  'due.read': { trainee: 'own', trainer: 'all', employer: 'all' },
  'feed.make': { trainee: 'own', trainer: 'own', employer: 'own' },
  'group.set': { trainee: 'no', trainer: 'all', employer: 'no' },
  'kit.read': { trainee: 'no', trainer: 'own', employer: 'no' },
  'proof.read': { trainee: 'own', trainer: 'all', employer: 'all' },
  'pack.make': { trainee: 'no', trainer: 'all', employer: 'all' },
  'share.make': { trainee: 'no', trainer: 'all', employer: 'all' },
  'checkpoint.read': { trainee: 'no', trainer: 'all', employer: 'all' },
  'device-key.enrol': { trainee: 'no', trainer: 'own', employer: 'no' },
  'device-key.end': { trainee: 'no', trainer: 'own', employer: 'no' },
  'device-key.end-other': { trainee: 'no', trainer: 'others', employer: 'others' },
  'pass-mark.set': { trainee: 'no', trainer: 'all', employer: 'no' },
  'test-figures.read': { trainee: 'no', trainer: 'all', employer: 'no' },
  'learning.keep': { trainee: 'own', trainer: 'own', employer: 'no' },
  'lessons-done.read': { trainee: 'own', trainer: 'all', employer: 'no' },
  'sign-in.reset-trainee': { trainee: 'no', trainer: 'others', employer: 'others' },
  'sign-in.reset-anybody': { trainee: 'no', trainer: 'no', employer: 'others' },
  'earlier.import': { trainee: 'no', trainer: 'all', employer: 'no' },
  'my-data.read': { trainee: 'own', trainer: 'own', employer: 'own' },
  'person.erase': { trainee: 'no', trainer: 'others', employer: 'others' },
  'organisation-data.read': { trainee: 'no', trainer: 'no', employer: 'all' },
  'invitation.make': { trainee: 'no', trainer: 'all', employer: 'no' },
} as const satisfies Readonly<Record<string, Readonly<Record<Role, Reach>>>>;

export type Action = keyof typeof PERMISSIONS;

/** What an action is about. Without `person` it is about the organisation as a whole. */
export type Subject = { readonly org: string; readonly person?: string };

/**
 * Whether this viewer may do this. Nobody signed in, or another organisation's record: never.
 * `own` and `others` need to know the person, so they are refused when the subject names none.
 */
export function can(viewer: Viewer | null, action: Action, subject: Subject): boolean {
  if (viewer === null || viewer.org !== subject.org) return false;
  const reach: Reach = PERMISSIONS[action][viewer.role];
  if (reach === 'all') return true;
  if (reach === 'no' || subject.person === undefined) return false;
  return (subject.person === viewer.person) === (reach === 'own');
}
