import type { APIRoute } from 'astro';
import { getSite, organisationData, replyRefusal, seeOther } from '../../accounts/index.ts';
import { signInPath } from '../../components/sign-in-path.ts';
import { sendFile } from '../_desk/send-file.ts';

export const prerender = false;

/** All that is kept of the whole workshop as a file, for its employer; written out piece by piece. */
export const GET: APIRoute = async ({ locals, url }) => {
  if (locals.viewer === null) return seeOther(signInPath(url));
  const data = organisationData(locals.viewer, await getSite());
  if (!data.ok) return replyRefusal(data.refusal);
  const file = { name: 'organisation.json', type: 'application/json; charset=utf-8' };
  return sendFile(data.value, file, locals.roomToSend);
};
