import type { Role } from '../accounts/index.ts';
import type { WordId } from '../words/catalogue/index.ts';
import { plainPath } from '../words/index.ts';

/** A page in the header: its address in English, and what it is called in the catalogue. */
export type Place = { readonly href: string; readonly name: WordId };

const LESSONS: Place = { href: '/lessons/', name: 'frame.place.lessons' };
const LEARNING: readonly Place[] = [
  LESSONS,
  { href: '/bench/walk-round', name: 'frame.place.walk-round' },
  { href: '/bench/knife-and-guard', name: 'frame.place.knife-and-guard' },
];
const TESTS: Place = { href: '/tests/', name: 'frame.place.tests' };
const LIMITS: Place = { href: '/limits', name: 'frame.place.limits' };
const SEARCH: Place = { href: '/search', name: 'frame.place.search' };
const REGISTER: Place = { href: '/register', name: 'frame.place.register' };
const AUTHORISATIONS: Place = { href: '/authorisations', name: 'frame.place.authorisations' };
const DUE: Place = { href: '/due', name: 'frame.place.due' };
const PRACTICE: Place = { href: '/practice', name: 'frame.place.practice' };
const WHO_MAY: Place = { href: '/who-may', name: 'frame.place.who-may' };

const BY_ROLE: Readonly<Record<Role, readonly Place[]>> = {
  trainee: [
    { href: '/my-book', name: 'frame.place.my-book' },
    ...LEARNING,
    TESTS,
    DUE,
    PRACTICE,
    REGISTER,
    LIMITS,
    SEARCH,
  ],
  trainer: [
    { href: '/board', name: 'frame.place.board' },
    REGISTER,
    WHO_MAY,
    // authorisations are one press away, on the board and on the due list
    DUE,
    PRACTICE,
    LESSONS,
    TESTS,
    LIMITS,
    SEARCH,
  ],
  employer: [WHO_MAY, AUTHORISATIONS, DUE, REGISTER, LESSONS, LIMITS, SEARCH],
};

/** The places in the header for a role; null is a visitor. */
export const placesFor = (role: Role | null): readonly Place[] =>
  role === null ? [...LEARNING, LIMITS, SEARCH] : BY_ROLE[role];

/** Whether a page is at a place or below it. */
export function isAt(place: Place, pathname: string): boolean {
  const at = place.href.replace(/\/$/, '');
  const plain = plainPath(pathname);
  return plain === at || plain.startsWith(`${at}/`);
}
