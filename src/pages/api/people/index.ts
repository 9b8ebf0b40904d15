import type { APIRoute } from 'astro';
import { can, peopleOf, replyJson, replyRefusal } from '../../../accounts/index.ts';

export const prerender = false;

/** Everybody in the viewer's organisation: id, name and role. */
export const GET: APIRoute = async ({ locals: { viewer } }) => {
  if (viewer === null) {
    return replyRefusal({ status: 401, path: '', message: 'Sign in to see the people.' });
  }
  if (!can(viewer, 'people.list', { org: viewer.org })) {
    const message = 'Only a trainer or the employer sees the list of people.';
    return replyRefusal({ status: 403, path: '', message });
  }
  const people = await peopleOf(viewer.org);
  return replyJson(people.map(({ person, name, role }) => ({ person, name, role })));
};
