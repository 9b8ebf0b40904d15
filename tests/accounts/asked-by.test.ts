import { globSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ASKED_BY_SITE, askForRoute } from '../../src/accounts/asked-by.ts';
import { asSomebody, NOBODY, WHOLE_SITE, whoAsks } from '../../src/store/index.ts';

const viewer = {
  org: 'org-1',
  person: 'person-1',
  name: 'Mira Holt',
  email: 'mira.holt@alderlane.example',
  role: 'trainee' as const,
  signedInAt: '2026-03-03T09:30:00.000Z',
};
const asked = (route: string, who: typeof viewer | null) =>
  asSomebody(() => {
    askForRoute(route, who);
    return whoAsks();
  });

describe('whom the database is asked for', () => {
  it('is the organisation of whoever is signed in, and nobody for a stranger', () => {
    expect(asked('/people', viewer)).toBe('org-1');
    expect(asked('/de/people', viewer)).toBe('org-1');
    expect(asked('/people', null)).toBe(NOBODY);
  });

  it('is the site where a secret address or a sign-in says later who it is, in every language', () => {
    for (const route of ASKED_BY_SITE) expect(asked(route, null)).toBe(WHOLE_SITE);
    expect(asked('/de/sign-in', viewer)).toBe(WHOLE_SITE);
  });

  it('is the site on every page that a secret address opens', () => {
    const pages = globSync('**/*{.astro,.ts}', { cwd: 'src/pages' })
      .filter((file) => file.includes('[token]'))
      .map((file) => `/${file.replace(/\.(astro|ts)$/, '').replace(/\/index$/, '')}`);
    expect(pages.length).toBeGreaterThan(3);
    expect(pages.filter((page) => !ASKED_BY_SITE.has(page))).toEqual([]);
  });
});
