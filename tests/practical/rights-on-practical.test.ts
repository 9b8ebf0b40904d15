import { afterAll, beforeAll, expect, it } from 'vitest';
import { answerPractical } from '../../src/pages/_desk/answer-practical.ts';
import { rightsOn } from '../../src/pages/_desk/rights-on-practical.ts';
import { storyOf } from '../../src/pages/_desk/story-of.ts';
import { withdrawPractical } from '../../src/pages/_desk/withdraw-practical.ts';
import { newId, type SigningKey, type Statement } from '../../src/records/index.ts';
import { cosign, signedBy } from './after.ts';
import { enrolledKey, openStage, type Stage } from './workshop.ts';

/** What the page of a record offers each person: never more than the desk would take in. */
let stage: Stage;
let read: Statement;
let devs: SigningKey;
beforeAll(async () => {
  stage = await openStage();
  devs = await enrolledKey(stage, 'Dev Pradhan');
  read = await signedBy(stage, 'Ruth Amsel', await enrolledKey(stage, 'Ruth Amsel'));
}, 60_000);
afterAll(() => stage.close());

async function offered(name: string): Promise<string[]> {
  const stored = await stage.site.store.event(read.signoff);
  if (stored?.event?.kind !== 'practical.signed') throw new Error('no such record');
  const story = await storyOf(stored.event, stage.site);
  const rights = rightsOn(stored.event, story, stage.as(name));
  return [
    ...(rights.mayCosign ? ['cosign'] : []),
    ...(rights.mayWithdraw ? ['withdraw'] : []),
    ...(rights.mayWatchAgain ? ['watch'] : []),
    ...rights.answers,
    ...rights.appeals.map(() => 'settle'),
    ...(rights.isAppealTheirs ? ['not-theirs'] : []),
  ];
}
const all = async () => {
  const names = ['Ruth Amsel', 'Dev Pradhan', 'Mira Holt', 'Tom Okafor', 'Anna Weir'];
  return Object.fromEntries(
    await Promise.all(names.map(async (name) => [name.split(' ')[0], await offered(name)])),
  );
};

it('offers each person what is theirs to do, and takes it away once it is done', async () => {
  expect(await all()).toEqual({
    Ruth: ['withdraw', 'watch'],
    Dev: ['cosign', 'withdraw', 'watch'],
    Mira: ['agrees', 'disagrees', 'appeals'],
    Tom: [],
    Anna: [],
  });
  const appeal = { id: newId(), answer: 'appeals', words: 'Not my setting.' };
  await answerPractical(stage.as('Mira Holt'), read.signoff, appeal, stage.site);
  await cosign(stage, 'Dev Pradhan', read, devs);
  expect(await all()).toEqual({
    Ruth: ['withdraw', 'watch', 'not-theirs'],
    Dev: ['withdraw', 'watch', 'settle'],
    Mira: ['agrees', 'disagrees'],
    Tom: [],
    Anna: ['settle'],
  });
  const reason = { reason: 'Wrong bench' };
  await withdrawPractical(stage.as('Ruth Amsel'), read.signoff, reason, stage.site);
  expect((await all())['Dev']).toEqual(['watch', 'settle']);
});
