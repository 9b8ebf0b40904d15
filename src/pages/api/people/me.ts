import type { APIRoute } from 'astro';
import { replyJson } from '../../../accounts/index.ts';

export const prerender = false;

/** Who is signed in, or null: for the header of pages that are the same for everybody,
 * and for a device that sends a signed record only while its signer is signed in. */
export const GET: APIRoute = ({ locals: { viewer } }) =>
  replyJson(
    viewer === null ? null : { person: viewer.person, name: viewer.name, role: viewer.role },
  );
