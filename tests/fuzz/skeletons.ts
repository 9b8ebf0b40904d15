import { newId } from '../../src/records/index.ts';
import type { RunningSite } from '../access/site.ts';
import type { World } from '../access/world.ts';

/** A form as a page shows it: its fields with what stands in them. */
export type Form = readonly (readonly [name: string, value: string])[];

const attribute = (tag: string, name: string): string | null =>
  new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1] ?? null;

/** The forms of a page that are sent to it, read out of its HTML; what a select offers first is chosen. */
export function formsIn(html: string): Form[] {
  return [...html.matchAll(/<form\b[^>]*method="post"[^>]*>(.*?)<\/form>/gs)].map(([, form = '']) =>
    [...form.matchAll(/<(input|textarea|button|select)\b[^>]*>(?:\s*<option\b[^>]*>)*/g)].flatMap(
      ([tag]) => {
        const name = attribute(tag, 'name');
        return name === null ? [] : [[name, attribute(tag, 'value') ?? ''] as const];
      },
    ),
  );
}

/** What each interface takes, as whole as it can be written without a browser. */
export async function jsonBodies(
  world: World,
  { send, origin }: RunningSite,
): Promise<Readonly<Record<string, unknown>>> {
  const { mira, dev } = world.things;
  const given = await send('/api/attempts', {
    method: 'POST',
    headers: { origin, 'content-type': 'application/json', cookie: world.cookies.mira },
    body: JSON.stringify({ task: 'walk-round' }),
  });
  const { token, bench } = JSON.parse(given.body) as { token: string; bench: unknown };
  const hold = 'a-tab-of-this-test-0001';
  const sitting = { attempt: mira.sitting, hold, revision: 1 };
  const work = { find: { kind: 'find', actions: [], findings: [] } };
  const statement = {
    schema: 'statement/2',
    signoff: mira.practical,
    org: world.orgs.near,
    who: { person: mira.person, nameHash: 'a'.repeat(64) },
    trainer: { person: dev.person, nameHash: 'b'.repeat(64) },
  };
  const event = {
    id: newId(),
    kind: 'practical.signed',
    version: 1,
    org: world.orgs.near,
    at: new Date().toISOString(),
    by: dev.person,
    about: mira.person,
    body: { statement, keyId: world.shared.near.key, deviceSignature: 'c'.repeat(86) },
  };
  return {
    '/api/attempts': { task: 'walk-round' },
    '/api/attempts/submit': { token, actions: [], claims: {} },
    '/api/attempts/verdict': { token, actions: [{ do: 'isolate' }] },
    '/api/benches': {
      asset: 'AL-09',
      title: 'Bench 9',
      work: ['rip'],
      limits: 'gb',
      file: bench,
      held: { blades: [], knives: [], documents: [] },
    },
    '/api/device-keys': {
      keyId: world.shared.near.key,
      publicKey: { kty: 'OKP', crv: 'Ed25519', x: 'd'.repeat(43) },
      label: 'tablet',
      ticket: 'e'.repeat(43),
    },
    '/api/invitations': { role: 'trainee', name: 'Ada Brook' },
    '/api/pass-marks/[blueprint]/adoption': { id: newId(), version: '1', mark: 70 },
    '/api/pass-marks/[blueprint]/ratings': { id: newId(), version: '1', ratings: { find: 0.7 } },
    '/api/passkeys/answer': { for: 'sign-in', answer: { id: 'f'.repeat(20), response: {} } },
    '/api/passkeys/ask': { for: 'sign-in', statements: ['0'.repeat(64)] },
    '/api/practicals': {
      event,
      sheet: { person: mira.person, readings: [{ value: 5 }] },
      ticket: 't',
    },
    '/api/practicals/[id]/cosign': { event, ticket: 't' },
    '/api/practicals/[id]/withdraw': { reason: 'Signed for the wrong person.' },
    '/api/practicals/confirm': {
      password: 'not the right one',
      statements: ['0'.repeat(64)],
      key: null,
    },
    '/api/progress': {
      person: mira.person,
      answers: [
        {
          id: newId(),
          lesson: 'riving-knife',
          question: 'q',
          right: true,
          at: new Date().toISOString(),
        },
      ],
    },
    '/api/sittings': { blueprint: 'rip-test', hold, how: 'begin', time: 'as-set' },
    '/api/sittings/hand-in': { ...sitting, work },
    '/api/sittings/more': { attempt: mira.sitting, hold },
    '/api/sittings/save': { ...sitting, work, pause: false },
  };
}
