import type { APIRoute } from 'astro';
import { seeOther, signOut } from '../accounts/index.ts';

export const prerender = false;

export const POST: APIRoute = async ({ request }) => seeOther('/', await signOut(request));

/** Only the button signs out: a link somewhere else must not be able to. */
export const GET: APIRoute = () => seeOther('/');
