import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compareCheckpoint } from '../../src/pages/_desk/compare-checkpoint.ts';
import { findLeave, leaveProofOf } from '../../src/pages/_desk/leave-proof.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import {
  authorisationMeaningOf,
  didOf,
  type EventDraft,
  newId,
  readEventDraft,
  type Statement,
  signCheckpoint,
  verifyProof,
} from '../../src/records/index.ts';
import { seedKey } from '../records/sample-log.ts';
import {
  enrolledKey,
  makeSheet,
  makeStatement,
  openStage,
  type Stage,
  signedRequest,
  ticketFor,
} from './workshop.ts';

let stage: Stage;
let statement: Statement;
let org = '';

beforeAll(async () => {
  stage = await openStage();
  ({ org } = stage.as('Ruth Amsel'));
  const key = await enrolledKey(stage, 'Ruth Amsel');
  const sheet = makeSheet(stage);
  statement = makeStatement(stage, sheet, 'Ruth Amsel');
  const ticket = await ticketFor(stage, 'Ruth Amsel', statement);
  const request = signedRequest(statement, sheet, key, ticket);
  const done = await receivePractical(stage.as('Ruth Amsel'), await request, stage.site);
  if (!done.ok) throw new Error(done.message);
});
afterAll(() => stage.close());

async function enter(kind: EventDraft['kind'], body: object, id = newId(), by = 'Anna Weir') {
  const read = readEventDraft({
    id,
    kind,
    version: 1,
    org,
    at: new Date().toISOString(),
    by: stage.person(by).person,
    about: kind === 'organisation.rules-set' ? org : stage.person('Mira Holt').person,
    body,
  });
  if (!read.ok) throw new Error(read.error.message);
  await stage.site.store.append(read.event);
  return id;
}

async function nameHashOf(name: string): Promise<string> {
  const joined = await stage.site.store.events({ org, kinds: ['person.joined'] });
  const { person } = stage.person(name);
  const found = joined.find(({ event }) => event?.about === person);
  if (found?.event?.kind !== 'person.joined') throw new Error(`${name} never joined`);
  return found.event.body.nameHash;
}

/** Leave for Mira Holt to rip on the first bench, given by Anna Weir on the practical above. */
async function giveLeave(): Promise<string> {
  const id = newId();
  const { bench, validFrom, validUntil, who } = statement;
  const unsaid = {
    schema: 'authorisation/1' as const,
    id,
    org,
    who,
    by: {
      person: stage.person('Anna Weir').person,
      nameHash: await nameHashOf('Anna Weir'),
      role: 'employer' as const,
    },
    bench: { id: bench.id, asset: bench.asset },
    work: ['rip' as const],
    from: validFrom as string,
    until: validUntil as string,
    supervised: 'as-usual' as const,
    largest: { thickness: null, length: null },
    conditions: [],
    age: { rule: 'gb', answer: 'old-enough' as const },
    basis: [statement.signoff],
  };
  const whole = { ...unsaid, meaning: authorisationMeaningOf(unsaid) };
  return enter('authorisation.given', { statement: whole }, id);
}

async function prove(id: string, shown: 'nothing' | 'all' = 'all') {
  const given = await findLeave(id, org, stage.site);
  if (given === null) throw new Error('no leave');
  return leaveProofOf(given, { shown, names: 'shown' }, stage.site);
}

async function verdictOf(id: string): Promise<string> {
  const done = await prove(id);
  return done.ok ? done.value.verdict.verdict : done.message;
}

describe('the proof of leave that the site makes', () => {
  it('is genuine, names who is named, and lists published units by id', async () => {
    const id = await giveLeave();
    const done = await prove(id);
    if (!done.ok) throw new Error(done.message);
    const { file } = done.value;
    const issuer = didOf(stage.site.siteKey.keyId);
    const verdict = await verifyProof(JSON.parse(JSON.stringify(file)), {
      trusted: [issuer],
      at: new Date().toISOString(),
    });
    expect(verdict).toMatchObject({
      verdict: 'genuine',
      record: { trainee: 'Mira Holt', giver: 'Anna Weir', practicals: [{ trainer: 'Ruth Amsel' }] },
    });
    expect(JSON.stringify(file.credential)).toContain('"targetCode":"2.1 2.1.1"');
  });

  it('is unlike from one making to the next where nothing is shown: salts are fresh', async () => {
    const id = await giveLeave();
    const [one, other] = [await prove(id, 'nothing'), await prove(id, 'nothing')];
    if (!one.ok || !other.ok) throw new Error('no proof');
    expect(one.value.file.credential['relatedResource']).not.toEqual(
      other.value.file.credential['relatedResource'],
    );
  });

  it('follows suspension, refresh and end', async () => {
    const id = await giveLeave();
    const rest = { authorisation: id, cause: 'long-break', reason: 'Away for half a year.' };
    await enter('authorisation.suspended', rest);
    expect(await verdictOf(id)).toBe('withdrawn');
    const back = { authorisation: id, how: 'talked-through', signoff: null, note: 'Shown again.' };
    await enter('authorisation.refreshed', back, newId(), 'Ruth Amsel');
    expect(await verdictOf(id)).toBe('genuine');
    await enter('authorisation.ended', { authorisation: id, reason: 'Left.' });
    expect(await verdictOf(id)).toBe('ended');
  });

  it('is not found in another organisation, nor under the id of something else', async () => {
    expect(await findLeave(await giveLeave(), 'org-2', stage.site)).toBeNull();
    expect(await findLeave(statement.signoff, org, stage.site)).toBeNull();
  });

  it('waits for a second person where the rules ask for one', async () => {
    const rules = { months: 12, breakMonths: 6, noticeDays: 30, second: 'authorisation' };
    await enter('organisation.rules-set', rules);
    const id = await giveLeave();
    expect(await verdictOf(id)).toContain('ask for a second person');
    const word = { authorisation: id, answer: 'agrees', note: null };
    await enter('authorisation.seconded', word, newId(), 'Anna Weir');
    expect(await verdictOf(id)).toContain('ask for a second person');
    await enter('authorisation.seconded', word, newId(), 'Dev Pradhan');
    expect(await verdictOf(id)).toBe('genuine');
    await enter('organisation.rules-set', { ...rules, second: 'nothing' });
  });

  it('is withdrawn with a practical it rests on', async () => {
    const id = await giveLeave();
    expect(await verdictOf(id)).toBe('genuine');
    const body = { signoff: statement.signoff, reason: 'Signed for the wrong bench.' };
    await enter('practical.withdrawn', body, newId(), 'Ruth Amsel');
    expect(await verdictOf(id)).toBe('withdrawn');
  });
});

describe('a checkpoint that somebody kept', () => {
  it('is gone on from by the log of today, however it was pasted', async () => {
    const kept = await stage.site.store.checkpoint();
    expect(await compareCheckpoint(kept, stage.site)).toMatchObject({ state: 'same', path: [] });
    for (let more = 1; more <= 9; more++) {
      await giveLeave();
      const found = await compareCheckpoint(`\r\n${kept.replaceAll('\n', '\r\n')}  `, stage.site);
      expect(found).toMatchObject({ state: 'goes-on' });
      if (found.state === 'goes-on') expect(found.size - found.kept).toBe(more);
    }
  });

  it('is told from one changed, one of a stranger and one of another log', async () => {
    const { siteKey, store } = stage.site;
    const kept = await store.checkpoint();
    const [, size = ''] = kept.split('\n');
    const state = async (text: string) => compareCheckpoint(text, stage.site);
    expect(await state(' ')).toEqual({ state: 'refused', why: 'empty' });
    expect(await state('hello')).toEqual({ state: 'refused', why: 'malformed' });
    expect(await state(kept.replace(`\n${size}\n`, '\n1\n'))).toEqual({
      state: 'refused',
      why: 'bad-signature',
    });
    const head = { origin: 'log', size: 1, root: new Uint8Array(32) };
    expect(await state(await signCheckpoint(head, await seedKey(9)))).toEqual({
      state: 'refused',
      why: 'unknown-signer',
    });
    expect(await state(await signCheckpoint(head, siteKey))).toEqual({
      state: 'refused',
      why: 'another-log',
    });
  });

  it('shows a log that was rewritten, cut short or damaged', async () => {
    const { siteKey, store } = stage.site;
    const [origin = '', size = ''] = (await store.checkpoint()).split('\n');
    const state = async (at: number) => {
      const root = new Uint8Array(32).fill(at);
      const note = await signCheckpoint({ origin, size: at, root }, siteKey);
      return (await compareCheckpoint(note, stage.site)).state;
    };
    for (const at of [1, 2, 7, Number(size) - 1, Number(size)])
      expect(await state(at)).toBe('rewritten');
    expect(await state(Number(size) + 1)).toBe('shorter');
    expect(await state(0)).toBe('nothing');
    await stage.tamper('delete from tree_node where level = 0 and position = 1');
    expect(await state(1)).toBe('damaged');
  });
});
