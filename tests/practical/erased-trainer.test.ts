import { afterAll, beforeAll, expect, it } from 'vitest';
import { erasePerson } from '../../src/accounts/index.ts';
import { findLeave, leaveProofOf } from '../../src/pages/_desk/leave-proof.ts';
import { recordOf } from '../../src/pages/_desk/proof-of.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import {
  auditLog,
  authorisationMeaningOf,
  didOf,
  newId,
  readEventDraft,
  verifyProof,
} from '../../src/records/index.ts';
import {
  enrolledKey,
  makeSheet,
  makeStatement,
  openStage,
  PASSWORD,
  type Stage,
  signedRequest,
  ticketFor,
} from './workshop.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());

/** A practical that Ruth Amsel watched and signed on her device. */
async function signPractical() {
  const key = await enrolledKey(stage, 'Ruth Amsel');
  const sheet = makeSheet(stage);
  const statement = makeStatement(stage, sheet, 'Ruth Amsel');
  const ticket = await ticketFor(stage, 'Ruth Amsel', statement);
  const request = await signedRequest(statement, sheet, key, ticket);
  const done = await receivePractical(stage.as('Ruth Amsel'), request, stage.site);
  if (!done.ok) throw new Error(done.message);
  return statement;
}

/** Leave for Mira Holt that Anna Weir gave on it. */
async function giveLeave({
  bench,
  org,
  signoff,
  validFrom,
  validUntil,
  who,
}: Awaited<ReturnType<typeof signPractical>>) {
  const { nameHash, person } = stage.person('Anna Weir');
  const unsaid = {
    schema: 'authorisation/1' as const,
    id: newId(),
    org,
    who,
    by: { person, nameHash, role: 'employer' as const },
    bench: { id: bench.id, asset: bench.asset },
    work: ['rip' as const],
    from: validFrom as string,
    until: validUntil as string,
    supervised: 'as-usual' as const,
    largest: { thickness: null, length: null },
    conditions: [],
    age: { rule: 'gb', answer: 'old-enough' as const },
    basis: [signoff],
  };
  const read = readEventDraft({
    id: unsaid.id,
    kind: 'authorisation.given',
    version: 1,
    org,
    at: new Date().toISOString(),
    by: person,
    about: who.person,
    body: { statement: { ...unsaid, meaning: authorisationMeaningOf(unsaid) } },
  });
  if (!read.ok) throw new Error(read.error.message);
  await stage.site.store.append(read.event);
  const given = await findLeave(unsaid.id, org, stage.site);
  if (given === null) throw new Error('no leave');
  return given;
}

it('lets proofs from before a trainer was erased, and made after it, verify; the later ones without the name', async () => {
  const { site } = stage;
  const statement = await signPractical();
  const leave = await giveLeave(statement);
  const makeProofs = async () => {
    const record = await recordOf(statement.signoff, statement.org, site);
    const proof = await leaveProofOf(leave, { shown: 'all', names: 'shown' }, site);
    if (record.state !== 'proved' || !proof.ok) throw new Error('no proof');
    return [record.file, proof.value.file].map((file) => JSON.stringify(file));
  };
  const verify = async (text: string) =>
    verifyProof(JSON.parse(text), {
      trusted: [didOf(site.siteKey.keyId)],
      at: new Date().toISOString(),
    });
  const before = await makeProofs();
  const checkpoint = await site.store.checkpoint();
  const employer = stage.as('Anna Weir');
  const trainer = stage.person('Ruth Amsel').person;
  const input = { id: newId(), reason: 'asked-in-writing', name: 'Ruth Amsel', password: PASSWORD };
  const erased = await erasePerson(employer, trainer, input, { address: null, site });
  expect(erased).toMatchObject({ ok: true });

  const after = await makeProofs();
  for (const text of [...before, ...after]) expect((await verify(text)).verdict).toBe('genuine');
  for (const text of before) expect(text).toContain('Ruth Amsel');
  for (const text of after) {
    expect(text).not.toContain('Ruth Amsel');
    expect(text).toContain('Mira Holt');
  }
  const report = await auditLog(site.store.readChunks(), {
    checkpoints: [checkpoint, await site.store.checkpoint()],
    publicKeys: [site.siteKey.publicKey],
    depth: 'events',
  });
  expect(report.ok).toBe(true);
});
