import type { APIRoute } from 'astro';
import {
  can,
  type InvitationInput,
  invitationsOf,
  invite,
  readJson,
  replyJson,
  replyRefusal,
} from '../../accounts/index.ts';

export const prerender = false;

const SIGN_IN = {
  status: 401,
  path: '',
  message: 'Sign in as a trainer to invite people.',
} as const;

/** Makes an invitation link: `{role, name}` in, `{id, path, expires}` out. The path is told this once. */
export const POST: APIRoute = async ({ request, locals }) => {
  if (locals.viewer === null) return replyRefusal(SIGN_IN);
  const made = await invite(locals.viewer, (await readJson(request)) as InvitationInput);
  return made.ok ? replyJson(made.value, 201) : replyRefusal(made.refusal);
};

/** The invitations of the viewer's organisation, newest first, without their links. */
export const GET: APIRoute = async ({ locals: { viewer } }) => {
  if (viewer === null) return replyRefusal(SIGN_IN);
  if (!can(viewer, 'invitation.make', { org: viewer.org })) {
    return replyRefusal({ status: 403, path: '', message: 'Only a trainer sees the invitations.' });
  }
  return replyJson(await invitationsOf(viewer.org));
};
