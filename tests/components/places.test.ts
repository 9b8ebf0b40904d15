import { describe, expect, it } from 'vitest';
import { isAt, placesFor } from '../../src/components/places.ts';
import { signInPath } from '../../src/components/sign-in-path.ts';

describe('the places in the header', () => {
  it('begin with the page each role works from', () => {
    expect(placesFor('trainee')[0]?.href).toBe('/my-book');
    expect(placesFor('trainer')[0]?.href).toBe('/board');
    expect(placesFor('employer')[0]?.href).toBe('/who-may');
  });

  it('offer a visitor nothing that needs a sign-in', () => {
    const open = ['/lessons/', '/bench/walk-round', '/bench/knife-and-guard', '/limits', '/search'];
    expect(placesFor(null).map(({ href }) => href)).toEqual(open);
  });

  it('know a page at the place, below it, and beside it', () => {
    const lessons = { href: '/lessons/', name: 'frame.place.lessons' } as const;
    expect(isAt(lessons, '/lessons')).toBe(true);
    expect(isAt(lessons, '/lessons/riving-knife')).toBe(true);
    expect(isAt({ href: '/limits', name: 'frame.place.limits' }, '/limits-of-liability')).toBe(
      false,
    );
  });
});

it('sends a visitor to sign in with the way back', () => {
  expect(signInPath(new URL('https://saw.example/people/7?at=2026-03-03&x=1'))).toBe(
    '/sign-in?next=%2Fpeople%2F7%3Fat%3D2026-03-03%26x%3D1',
  );
});
