import type { APIRoute } from 'astro';
import { can, getSite, replyJson, replyRefusal } from '../../../accounts/index.ts';
import { passMarkInForce, WHY_NOT_SET } from '../../../attempts/index.ts';
import { loadBlueprints } from '../../../store/content-files.ts';

export const prerender = false;

/** Every test with the pass mark in force here: `[{id, title, version, pass}]`. */
export const GET: APIRoute = async ({ locals: { viewer } }) => {
  if (viewer === null) {
    return replyRefusal({ status: 401, path: '', message: 'Sign in to see the pass marks.' });
  }
  if (!can(viewer, 'pass-mark.set', { org: viewer.org })) {
    return replyRefusal({ status: 403, path: '', message: WHY_NOT_SET });
  }
  const site = await getSite();
  const blueprints = [...loadBlueprints(site.contentDir).values()];
  return replyJson(
    await Promise.all(
      blueprints.map(async (blueprint) => {
        const { id, title, version } = blueprint;
        return { id, title, version, pass: await passMarkInForce(site, viewer.org, blueprint) };
      }),
    ),
  );
};
