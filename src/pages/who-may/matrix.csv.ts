import type { APIRoute } from 'astro';
import { can, getSite, organisationName, seeOther } from '../../accounts/index.ts';
import { readAsked } from '../../components/matrix/read-asked.ts';
import { signInPath } from '../../components/sign-in-path.ts';
import { LANGUAGE_IDS } from '../../words/index.ts';
import { sayIn } from '../../words/say.ts';
import { reachOf } from '../_desk/matrix/matrix-for.ts';
import { writeMatrixCsv } from '../_desk/matrix/write-csv.ts';
import { refuseFile, sendFile } from '../_desk/send-file.ts';

export const prerender = false;

/** ms: a table is made of everybody, so it waits until everybody is counted. */
const PATIENCE = 120_000;

/** The matrix that the address asks for, as a table. */
export const GET: APIRoute = async ({ locals, url }) => {
  const { viewer } = locals;
  if (viewer === null) return seeOther(signInPath(url));
  const language = LANGUAGE_IDS.find((one) => one === url.searchParams.get('language')) ?? 'en';
  const say = sayIn(language);
  if (!can(viewer, 'export.make', { org: viewer.org }))
    return refuseFile(403, say('matrix.refused'));
  const { asked, problems } = readAsked(url.searchParams);
  const [problem] = problems;
  if (problem !== undefined) {
    const { field, typed } = problem;
    return refuseFile(
      400,
      say(field === 'time' ? 'matrix.problem.time' : 'matrix.problem.on', { typed }),
    );
  }
  const site = await getSite();
  const checkpoint = await site.store.checkpoint();
  const reach = await reachOf(viewer, asked, site, say, PATIENCE);
  const about = {
    org: viewer.org,
    organisation: await organisationName(viewer.org, site),
    checkpoint,
    names: can(viewer, 'people.list', { org: viewer.org }) ? ('names' as const) : ('none' as const),
    say,
  };
  const file = {
    name: `who-may-${reach.instant.slice(0, 10)}.csv`,
    type: 'text/csv; charset=utf-8; header=absent',
  };
  return sendFile(writeMatrixCsv(reach, about, site), file, locals.roomToSend);
};
