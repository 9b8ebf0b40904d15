import type { Role } from '../accounts/index.ts';

export type Place = { readonly href: string; readonly name: string };

const LESSONS: Place = { href: '/lessons/', name: 'Lessons' };
const LEARNING: readonly Place[] = [
  LESSONS,
  { href: '/bench/walk-round', name: 'Walk round' },
  { href: '/bench/knife-and-guard', name: 'Knife and guard' },
];
const TESTS: Place = { href: '/tests/', name: 'Tests' };
const LIMITS: Place = { href: '/limits', name: 'Limits' };
const REGISTER: Place = { href: '/register', name: 'Benches' };
const WHO_MAY: Place = { href: '/who-may', name: 'Who may run what' };

const BY_ROLE: Readonly<Record<Role, readonly Place[]>> = {
  trainee: [{ href: '/my-book', name: 'My book' }, ...LEARNING, TESTS, LIMITS],
  trainer: [{ href: '/board', name: 'Board' }, REGISTER, WHO_MAY, LESSONS, TESTS, LIMITS],
  employer: [WHO_MAY, REGISTER, LESSONS, LIMITS],
};

/** The places in the header for a role; null is a visitor. */
export const placesFor = (role: Role | null): readonly Place[] =>
  role === null ? [...LEARNING, LIMITS] : BY_ROLE[role];

/** Whether a page is at a place or below it. */
export function isAt(place: Place, pathname: string): boolean {
  const at = place.href.replace(/\/$/, '');
  return pathname === at || pathname.startsWith(`${at}/`);
}
