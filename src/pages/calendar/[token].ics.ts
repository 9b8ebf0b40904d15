import type { APIRoute } from 'astro';
import { getSite, openCalendar, organisationName } from '../../accounts/index.ts';
import { sayIn } from '../../words/say.ts';
import { dueFor, sayDue } from '../_desk/due-list.ts';
import { workshopOf } from '../_desk/workshop.ts';
import { writeCalendar } from '../_desk/write-calendar.ts';
import { ownAddress } from '../_people/own-address.ts';

export const prerender = false;

/** The calendar of whoever the secret address belongs to; for any other address a plain 404. */
export const GET: APIRoute = async ({ params, request }) => {
  const site = await getSite();
  const owner = await openCalendar(params['token'] ?? '', site);
  const headers = { 'cache-control': 'no-store', 'x-robots-tag': 'noindex' };
  if (owner === null) {
    return new Response('Not found\n', {
      status: 404,
      headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' },
    });
  }
  const say = sayIn(owner.language);
  const now = new Date();
  const workshop = await workshopOf(owner.org, site, {}, say);
  const address = ownAddress(say.at('/due'), request);
  const isOpaque = owner.names === 'opaque';
  const names = owner.role === 'trainee' ? 'none' : 'names';
  // a calendar program takes what is not there for done: it waits until everybody is counted
  const patience = Number.POSITIVE_INFINITY;
  const asked = { at: now.toISOString(), whose: workshop.people, patience };
  const { due: all } = await dueFor(workshop, owner, asked, site);
  const days = all.map((due) => ({
    id: due.id,
    day: due.day,
    title: isOpaque ? say('due.calendar.opaque') : sayDue(due, workshop, say, names),
    more: say('due.calendar.more', { address }),
  }));
  const organisation = await organisationName(owner.org, site);
  const name = isOpaque ? say('due.title') : say('due.calendar.name', { organisation });
  const text = writeCalendar(days, { name, org: owner.org, at: now, language: owner.language });
  return new Response(text, {
    headers: {
      ...headers,
      'content-type': 'text/calendar; charset=utf-8',
      'content-disposition': 'inline; filename="due.ics"',
    },
  });
};
