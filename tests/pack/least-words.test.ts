import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { leastTold } from '../../src/competence/index.ts';
import { tell } from '../../src/competence/told/told.ts';
import { workshopOf } from '../../src/pages/_desk/workshop.ts';
import { sayCell } from '../../src/pages/_pack/blocks/matrix.ts';
import type { MadePack } from '../../src/pages/_pack/make-pack.ts';
import { sharedMatrix } from '../../src/pages/_pack/shared.ts';
import { newId, readZip } from '../../src/records/index.ts';
import { LANGUAGE_IDS } from '../../src/words/index.ts';
import { sayIn } from '../../src/words/say.ts';
import { makeStagePack } from './make.ts';
import { readPdf } from './read-pdf.ts';
import { openPackStage, type PackStage } from './stage.ts';

/*
 * What an inspector needs is who may work at which machine, and where somebody may not, since when, by whose word
 * and for what kind of reason. Words that somebody typed stay with the workshop (Regulation (EU) 2016/679,
 * Article 5(1)(c), data minimisation; from memory).
 */

/** A word that stands nowhere else. */
const TYPED = 'Bandscheibenvorfall';
let stage: PackStage;
const leaves = new Map<string, string>();

beforeAll(async () => {
  stage = await openPackStage();
  for (const name of ['Mira Holt', 'Tom Okafor', 'Dev Pradhan']) {
    leaves.set(name, await stage.authorise(name));
  }
  const about = (name: string) => stage.person(name).person;
  const suspended = { authorisation: leaves.get('Mira Holt'), cause: 'long-break', reason: TYPED };
  await stage.enter('authorisation.suspended', suspended, about('Mira Holt'), 'Ruth Amsel');
  const other = { authorisation: leaves.get('Dev Pradhan'), cause: 'other', reason: TYPED };
  await stage.enter('authorisation.suspended', other, about('Dev Pradhan'), 'Ruth Amsel');
  const ended = { authorisation: leaves.get('Tom Okafor'), reason: TYPED };
  await stage.enter('authorisation.ended', ended, about('Tom Okafor'), 'Anna Weir');
}, 120_000);
afterAll(() => stage.close());

async function cellsIn(language: (typeof LANGUAGE_IDS)[number]): Promise<Map<string, string[]>> {
  const say = sayIn(language);
  const people = [...leaves.keys()].map((name) => stage.person(name).person);
  const workshop = await workshopOf(stage.org, stage.site, { people }, say);
  const instant = new Date().toISOString();
  const { cells } = sharedMatrix({ bench: stage.bench.id, people }, workshop, instant);
  const said = cells.map((cell) => [workshop.nameOf(cell.person), sayCell(cell, say)] as const);
  return new Map(
    [...Map.groupBy(said, ([name]) => name)].map(([name, all]) => [name, all.map(([, it]) => it)]),
  );
}

describe('what an inspector is shown of leave that does not hold', () => {
  it('is since when, by whom and for what kind of reason', async () => {
    const cells = await cellsIn('en');
    const rip = (name: string) => cells.get(name)?.[0];
    expect(rip('Mira Holt')).toMatch(/rests since .+, set at rest by R\. Amsel after a long break/);
    expect(rip('Dev Pradhan')).toMatch(/rests since .+, set at rest by R\. Amsel for another/);
    expect(rip('Tom Okafor')).toMatch(/ended by A\. Weir on /);
  });

  it.each(LANGUAGE_IDS)('holds none of the words that were typed, in %s', async (language) => {
    const said = [...(await cellsIn(language)).values()].flat().join('\n');
    expect(said.length).toBeGreaterThan(50);
    expect(said).not.toContain(TYPED);
    expect(said).not.toMatch(/[{}]/);
  });

  it('holds none of them in the pack either, in no file of it', async () => {
    const pack: MadePack = await makeStagePack(stage, new Date().toISOString());
    const words = await readPdf(pack.pdf);
    expect(JSON.stringify(words)).toContain('set at rest by');
    expect(JSON.stringify(words)).not.toContain(TYPED);
    const files = readZip(pack.zip) ?? new Map();
    expect(files.size).toBeGreaterThan(3);
    for (const [path, bytes] of files) {
      expect(Buffer.from(bytes ?? new Uint8Array()).toString('latin1'), path).not.toContain(TYPED);
    }
  });

  it.each([
    ['rests.suspended', { day: 'd', who: 'w', kind: 'machine-change', reason: TYPED }],
    ['rests.suspended', { day: 'd', who: 'w', kind: newId(), reason: TYPED }],
    ['leave.ended', { day: 'd', who: 'w', reason: TYPED }],
    ['withdrawn', { seen: 'd', trainer: 'w', reason: TYPED }],
    ['bench.out', { day: 'd', reason: TYPED }],
  ] as const)('leaves the words out of %s and keeps the rest', (kind, put) => {
    const { reason: _typed, kind: _kind, ...rest } = put as Record<string, string>;
    const least = leastTold(tell(kind, put));
    expect(least.put).toEqual(rest);
    expect(JSON.stringify(least)).not.toContain(TYPED);
  });
});
