/** Runs in a browser: the device's part of signing, and a practical to sign with it. Bundled by `signing-page.ts`. */
import { type Sheet, settleReadings, unitToWatch, type Work } from '../../src/competence/index.ts';
import { writeStatement } from '../../src/competence/sheet/index.ts';
import {
  fetchKit,
  keepPhoto,
  keepSheet,
  keptKit,
  keptSheet,
  makeReady,
  type SignAllOutcome,
  signAll,
} from '../../src/panels/signing/index.ts';
import { openDeviceStore } from '../../src/panels/signing/store/device-store.ts';
import { withMeaning } from '../../src/records/check/index.ts';

export * from '../../src/panels/signing/index.ts';
export { checkOnDevice } from '../../src/panels/signing/ready/verifier.ts';
export { openDeviceStore };

export type Plan = {
  /** ids of the sign-offs, one to a unit */
  readonly ids: readonly string[];
  readonly practical: string;
  readonly photos: number;
  readonly confirmed: 'site' | 'device';
  readonly password: string;
};

const WORK: Work = 'rip';

/** A picture that no other one is like. */
export async function drawPicture(words: string): Promise<Blob> {
  const canvas = document.createElement('canvas');
  canvas.width = 320;
  canvas.height = 240;
  const context = canvas.getContext('2d')!;
  context.fillStyle = '#888';
  context.fillRect(0, 0, 320, 240);
  context.fillStyle = '#000';
  context.fillText(words, 10, 120);
  return new Promise((done) => canvas.toBlob((blob) => done(blob!), 'image/png'));
}

export const draftKeyOf = (trainer: string, practical: string): string => `${trainer}/${practical}`;

/** Keeps a draft, takes its photos, writes its statements and signs them, as the sheet does. */
export async function signPlan(plan: Plan): Promise<SignAllOutcome> {
  const kit = await keptKit();
  const bench = kit?.benches[0];
  const who = kit?.people.find(({ role }) => role === 'trainee');
  const set = kit?.sets.find(({ id }) => id === bench?.limits);
  const practice = kit?.sets.find(({ id }) => id === 'practice');
  if (kit == null || !bench || !who || !set || !practice) throw new Error('the kit is not whole');
  const draftKey = draftKeyOf(kit.trainer.person, plan.practical);
  const draft = {
    title: 'a practical',
    path: '/practical/sheet',
    savedAt: new Date().toISOString(),
  };
  await keepSheet({ ...draft, sheetKey: draftKey, sheet: { practical: plan.practical } });
  const digests: string[] = [];
  for (let at = 0; at < plan.photos; at += 1) {
    digests.push((await keepPhoto(await drawPicture(`${plan.practical} ${at}`))).digest);
  }
  const today = new Date().toISOString().slice(0, 10);
  const whole = kit.units.filter(({ work }) => work.includes(WORK));
  const units = plan.ids.map((signoff, index) => {
    const unit = unitToWatch(whole[index]!, WORK, [set, practice]);
    const sheet: Sheet = {
      person: who.person,
      bench: bench.id,
      work: WORK,
      unit: unit.id,
      observedAt: today,
      place: 'Machine shop',
      material: 'Redwood, 50 mm, dry',
      blade: { diameter: 400, kerf: 4.2, plate: 2.8, teeth: 36 },
      criteria: unit.criteria.map(({ id }) => ({ id, result: 'not-seen' as const })),
      readings: [],
      stops: [],
      conditions: [],
      decision: 'not-yet',
      validFrom: null,
      validUntil: null,
      practical: plan.practical,
      photos: digests.map((digest) => ({ digest, criterion: null })),
      acknowledged: { answer: 'agrees', words: null },
      confirmed: plan.confirmed,
    };
    const settled = settleReadings(sheet, unit, { bench: bench.file, set, practice });
    const statement = withMeaning(
      writeStatement(sheet, settled, unit, {
        signoff,
        org: kit.org.id,
        who: { person: who.person, nameHash: who.nameHash },
        trainer: { person: kit.trainer.person, nameHash: kit.trainer.nameHash },
        bench: { id: bench.id, asset: bench.asset, guardKind: bench.file.guard?.kind ?? 'none' },
        limits: { set: set.id, version: String(set.version) },
      }),
    );
    return { statement, sheet };
  });
  return signAll({
    units,
    sheetKeys: [draftKey],
    ...draft,
    password: plan.password,
    device: 'tablet',
  });
}

/** What of a plan lies on this device. */
export async function lookFor(plan: Pick<Plan, 'ids' | 'practical'>) {
  const db = await openDeviceStore();
  const kit = await keptKit();
  const has = async (store: 'outbox' | 'refused') =>
    (await db.getAllKeys(store)).filter((id) => plan.ids.includes(id));
  return {
    outbox: await has('outbox'),
    refused: await has('refused'),
    draft: (await keptSheet(draftKeyOf(kit?.trainer.person ?? '', plan.practical))) !== undefined,
  };
}

export { fetchKit, makeReady };
