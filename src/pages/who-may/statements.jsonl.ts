import type { APIRoute } from 'astro';
import { can, getSite, seeOther } from '../../accounts/index.ts';
import { readAsked } from '../../components/matrix/read-asked.ts';
import { signInPath } from '../../components/sign-in-path.ts';
import { sayIn } from '../../words/say.ts';
import { refuseFile, sendFile } from '../_desk/send-file.ts';
import { statementsOf } from '../_desk/xapi/statements-of.ts';
import { ownAddress } from '../_people/own-address.ts';

export const prerender = false;

/** Everything done in the organisation as xAPI 2.0 statements, one on each line. */
export const GET: APIRoute = async ({ locals, request, url }) => {
  const { viewer } = locals;
  if (viewer === null) return seeOther(signInPath(url));
  const say = sayIn('en');
  if (!can(viewer, 'export.make', { org: viewer.org }))
    return refuseFile(403, say('matrix.refused'));
  const { asked, problems } = readAsked(url.searchParams);
  const [problem] = problems;
  if (problem !== undefined) {
    return refuseFile(400, say('matrix.problem.on', { typed: problem.typed }));
  }
  const until = asked.on?.instant ?? null;
  const address = ownAddress('/', request);
  const day = (until ?? new Date().toISOString()).slice(0, 10);
  const file = { name: `statements-${day}.jsonl`, type: 'application/jsonl; charset=utf-8' };
  const statements = statementsOf({ org: viewer.org, address, until }, await getSite());
  return sendFile(statements, file, locals.roomToSend);
};
