import { newId } from '../../src/records/index.ts';
import type { Route } from './routes.ts';
import type { Things, ViewerName, World } from './world.ts';

/**
 * How a viewer stands to what an address is about. `unknown` is an id that never was; `far` is one of the other
 * workshop, which must be answered in the same words.
 */
export type Stand =
  | 'nobody'
  | 'own'
  | 'other'
  | 'trainer'
  | 'trainerSelf'
  | 'colleague'
  | 'signer'
  | 'employer'
  | 'there'
  | 'missing'
  | `${'trainee' | 'trainer' | 'employer'}Missing`;

export type Subject =
  | 'mira'
  | 'tom'
  | 'dev'
  | 'ruths'
  | 'annas'
  | 'far'
  | 'unknown'
  | 'near'
  | 'none';

type Holder = keyof Things | 'bench' | 'group' | 'content' | 'pack' | Secret;

/** Whoever has the address has all it takes. */
const SECRETS = ['calendar', 'invitation', 'reset', 'share'] as const;
type Secret = (typeof SECRETS)[number];
const isSecret = (holder: Holder | null): holder is Secret =>
  SECRETS.some((secret) => secret === holder);

/** What stands in the brackets of an address, by the beginning of its pattern. The first that fits counts. */
const HOLDERS: readonly (readonly [RegExp, Holder])[] = [
  [/^\/(people|erasing)\//, 'person'],
  [/^\/attempts\//, 'attempt'],
  [/^\/sittings\//, 'sitting'],
  [/^\/(proof\/leave|authorisations)\//, 'leave'],
  [/^\/api\/authorisation-proofs\//, 'leave'],
  [/^\/(practical|proof)\//, 'practical'],
  [/^\/api\/(practicals|proofs|photos)\//, 'practical'],
  [/^\/register\//, 'bench'],
  [/^\/groups\//, 'group'],
  [/^\/calendar\//, 'calendar'],
  [/^\/invitation\//, 'invitation'],
  [/^\/new-password\//, 'reset'],
  [/^\/shared\//, 'share'],
  [/^\/(pack|api\/packs)\//, 'pack'],
  [/^\/(api\/)?pass-marks\//, 'content'],
];
const PERSONAL: readonly Holder[] = ['person', 'attempt', 'sitting', 'practical', 'leave'];

/** `/de/people/[id]` is asked for, and answered, as `/people/[id]` is. */
export const plainPattern = (pattern: string): string =>
  pattern.replace(/^\/de(?=\/|$)/, '') || '/';

export function holderOf(pattern: string): Holder | null {
  const plain = plainPattern(pattern);
  if (!plain.includes('[')) return null;
  return HOLDERS.find(([begins]) => begins.test(plain))?.[1] ?? null;
}

export function subjectsOf(pattern: string): readonly Subject[] {
  const holder = holderOf(pattern);
  if (holder === null) return ['none'];
  if (PERSONAL.includes(holder)) return ['mira', 'tom', 'dev', 'far', 'unknown'];
  // a pack belongs to whoever had it made, not to the workshop
  if (holder === 'pack') return ['ruths', 'annas', 'far', 'unknown'];
  return holder === 'content' ? ['near', 'unknown'] : ['near', 'far', 'unknown'];
}

function idOf(holder: Holder, subject: Subject, world: World): string {
  if (holder === 'content') return subject === 'near' ? 'rip-test' : 'no-such-test';
  if (subject === 'unknown') return isSecret(holder) ? 'A'.repeat(43) : newId();
  if (holder === 'pack') return world.packs[subject as keyof World['packs']];
  if (PERSONAL.includes(holder)) {
    return world.things[subject as keyof World['things']][holder as keyof Things];
  }
  return world.shared[subject === 'far' ? 'far' : 'near'][holder as 'bench'];
}

/** The address of a route with a real id put in. */
export function addressOf(
  { pattern }: Pick<Route, 'pattern'>,
  subject: Subject,
  world: World,
): string {
  const holder = holderOf(pattern);
  if (holder === null) return pattern;
  const value = idOf(holder, subject, world);
  if (pattern.startsWith('/api/photos/')) {
    return `/api/photos/${world.shared.near.photo}?signoff=${value}`;
  }
  const file = pattern.startsWith('/shared/') ? 'pack-en-a4.pdf' : 'pack.pdf';
  return pattern.replace(/\[\w+\]/, value).replace('[file]', file);
}

const ROLES: Readonly<Record<ViewerName, 'nobody' | 'trainee' | 'trainer' | 'employer'>> = {
  nobody: 'nobody',
  former: 'nobody',
  mira: 'trainee',
  tom: 'trainee',
  ruth: 'trainer',
  dev: 'trainer',
  anna: 'employer',
  farTrainee: 'trainee',
  farTrainer: 'trainer',
  farEmployer: 'employer',
};
/** Who had which pack made. */
const PACK_OF: Partial<Readonly<Record<Subject, ViewerName>>> = {
  ruths: 'ruth',
  annas: 'anna',
  far: 'farEmployer',
};
const isFar = (viewer: ViewerName): boolean => viewer.startsWith('far');

const roleStand = (role: 'trainee' | 'trainer' | 'employer') => (role === 'trainee' ? 'own' : role);

/**
 * What a viewer is to a subject. Somebody of the other workshop stands to this one's things as to unknown ones. An
 * address with a secret in it opens for whoever has it: `there` or `missing`, whoever asks.
 */
export function standOf(pattern: string, viewer: ViewerName, subject: Subject): Stand {
  const role = ROLES[viewer];
  const holder = holderOf(pattern);
  if (isSecret(holder)) {
    return subject === 'unknown' ? 'missing' : 'there';
  }
  if (role === 'nobody') return 'nobody';
  if (holder === 'content') return subject === 'unknown' ? `${role}Missing` : roleStand(role);
  if (holder === 'pack') return PACK_OF[subject] === viewer ? roleStand(role) : `${role}Missing`;
  const isThere = subject === 'none' || (subject === 'far') === isFar(viewer);
  if (subject === 'unknown' || !isThere) return `${role}Missing`;
  if (role === 'employer') return 'employer';
  if (role === 'trainer') {
    if (viewer === subject) return 'trainerSelf';
    if (holder === 'person' && subject === 'dev') return 'colleague';
    return holder === 'practical' && viewer !== 'dev' ? 'signer' : 'trainer';
  }
  const isOwn = viewer === subject || (viewer === 'farTrainee' && subject === 'far');
  return isOwn || subject === 'none' || subject === 'near' ? 'own' : 'other';
}
