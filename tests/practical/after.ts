import { acceptInvitation, invite, peopleOf } from '../../src/accounts/index.ts';
import { confirmSigner } from '../../src/pages/_desk/confirm-signer.ts';
import { receiveCosign } from '../../src/pages/_desk/receive-cosign.ts';
import { receivePractical } from '../../src/pages/_desk/receive-practical.ts';
import { statementHashOf } from '../../src/panels/signing/index.ts';
import {
  type Cosign,
  cosignMeaningOf,
  newId,
  type SigningKey,
  type Statement,
  signCosign,
} from '../../src/records/index.ts';
import { asSite } from '../../src/store/index.ts';
import {
  makeSheet,
  makeStatement,
  PASSWORD,
  type Stage,
  signedRequest,
  ticketFor,
} from './workshop.ts';

/** A sheet of the second form: with a photo, and with what the person said. */
export const sheetNow = (stage: Stage, over: Parameters<typeof makeSheet>[1] = {}) =>
  makeSheet(stage, {
    practical: newId(),
    photos: [{ digest: 'a'.repeat(64), criterion: null }],
    acknowledged: { answer: 'agrees', words: 'Said I will check the gap again.' },
    confirmed: 'site',
    ...over,
  });

/** A practical that this trainer signed and the site has entered. */
export async function signedBy(
  stage: Stage,
  trainer: string,
  key: SigningKey,
  over: Parameters<typeof makeSheet>[1] = {},
): Promise<Statement> {
  const sheet = sheetNow(stage, over);
  const statement = makeStatement(stage, sheet, trainer);
  const ticket = await ticketFor(stage, trainer, statement);
  const request = await signedRequest(statement, sheet, key, ticket);
  const done = await receivePractical(stage.as(trainer), request, stage.site);
  if (!done.ok) throw new Error(done.message);
  return statement;
}

/** What a second trainer's device writes before it is signed. */
export function makeCosign(
  stage: Stage,
  trainer: string,
  read: Statement,
  over: Partial<Cosign> = {},
): Cosign {
  const self = stage.person(trainer);
  const unsaid = {
    schema: 'cosign/1' as const,
    id: newId(),
    org: read.org,
    signoff: read.signoff,
    statementHash: statementHashOf(read),
    unit: read.unit.title,
    trainer: { person: self.person, nameHash: self.nameHash, role: 'trainer' as const },
    answer: 'agrees' as const,
    note: null,
    ...over,
  };
  return { ...unsaid, meaning: cosignMeaningOf(unsaid) };
}

/** The request a second trainer's device sends. */
export async function cosignRequest(
  stage: Stage,
  trainer: string,
  cosign: Cosign,
  key: SigningKey,
  about: string,
) {
  const confirmed = await confirmSigner(
    stage.as(trainer),
    { password: PASSWORD, statements: [statementHashOf(cosign)], key: null },
    null,
    stage.site,
  );
  if (!confirmed.ok) throw new Error(confirmed.message);
  return {
    event: {
      id: cosign.id,
      kind: 'practical.cosigned',
      version: 1,
      org: cosign.org,
      at: new Date().toISOString(),
      by: cosign.trainer.person,
      about,
      body: { ...(await signCosign(cosign, key)) },
    },
    ticket: confirmed.value.ticket,
  };
}

export async function cosign(
  stage: Stage,
  trainer: string,
  read: Statement,
  key: SigningKey,
  over: Partial<Cosign> = {},
) {
  const word = makeCosign(stage, trainer, read, over);
  const request = await cosignRequest(stage, trainer, word, key, read.who.person);
  return receiveCosign(stage.as(trainer), read.signoff, request, stage.site);
}

/** The same workshop with one more trainer in it, Nils Arden. */
export async function withThirdTrainer(stage: Stage): Promise<Stage> {
  const name = 'Nils Arden';
  const email = 'nils.arden@alderlane.example';
  const invited = await invite(stage.as('Ruth Amsel'), { role: 'trainer', name }, stage.site);
  if (!invited.ok) throw new Error(invited.refusal.message);
  const token = invited.value.path.split('/').at(-1) ?? '';
  const joined = await asSite(() =>
    acceptInvitation(token, { name, email, password: PASSWORD }, stage.site),
  );
  if (!joined.ok) throw new Error(joined.refusal.message);
  const { org } = stage.as('Ruth Amsel');
  const found = (await peopleOf(org, stage.site)).find((one) => one.name === name);
  if (found === undefined) throw new Error('nobody joined');
  const { person, role } = found;
  const signedInAt = new Date().toISOString();
  return {
    ...stage,
    person: (asked) => (asked === name ? found : stage.person(asked)),
    as: (asked) =>
      asked === name ? { person, org, name, email, role, signedInAt } : stage.as(asked),
  };
}
