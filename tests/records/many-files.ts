import {
  addProof,
  buildStatusList,
  didOf,
  type JsonObject,
  toBase64,
} from '../../src/records/index.ts';
import { bendFile } from './bend-file.ts';
import { BASIS_AT, GIVER, LEAVE_AT, sampleLeave, statusLists } from './sample-authorisation.ts';
import { forgeProof, sampleProof, sampleStatementNow, seedKey } from './sample-log.ts';

/** A file somebody has checked, on a day, with the verdict it must get wherever it is checked. */
export type ManyFile = {
  readonly name: string;
  readonly file: object;
  readonly trusted: readonly string[];
  readonly day: string;
  readonly verdict: string;
};

const DAY = '2026-03-10';

/** Files of both forms: genuine, altered in every part, of strangers, ended, withdrawn, resting, unknown. */
export async function makeManyFiles(): Promise<ManyFile[]> {
  const practical = await sampleProof();
  const now = await sampleProof({ statement: sampleStatementNow() });
  const taken = await sampleProof({ withdrawn: [5] });
  const all = await sampleLeave();
  const results = await sampleLeave({ shown: 'results' });
  const nothing = await sampleLeave({ shown: 'nothing' });
  const { issuer, site } = practical;
  const stranger = didOf((await seedKey(9)).keyId);
  const files: ManyFile[] = [];
  const add = (
    verdict: string,
    name: string,
    file: object,
    rest: Partial<Pick<ManyFile, 'day' | 'trusted'>> = {},
  ) => files.push({ name, file, verdict, trusted: [issuer], day: DAY, ...rest });
  const bent = (name: string, file: object, path: string, value: unknown) =>
    add('altered', name, bendFile(file, path, value));

  add('genuine', 'a practical', practical.file);
  add('genuine', 'a practical in today’s form', now.file);
  add('genuine', 'a practical without names', { ...practical.file, names: {} });
  add('genuine', 'a practical forged whole by its own site', await forgeProof());
  add('genuine', 'leave, all shown', all.file);
  add('genuine', 'leave, results shown', results.file);
  add('genuine', 'leave, nothing shown', nothing.file);
  add('genuine', 'leave without names', { ...nothing.file, names: {} });
  add('genuine', 'leave without a second person', { ...all.file, second: null });
  add('genuine', 'leave with one practical shown', {
    ...all.file,
    basis: [all.file.basis[0], nothing.file.basis[1]],
  });
  add('genuine', 'leave, another signer trusted too', all.file, { trusted: [stranger, issuer] });

  for (const [name, file] of [
    ['a practical', practical.file],
    ['leave', all.file],
  ] as const) {
    add('not from a trusted signer', `${name}, nobody trusted`, file, { trusted: [] });
    add('not from a trusted signer', `${name}, another trusted`, file, { trusted: [stranger] });
    add('ended', `${name} after its last day`, file, { day: '2028-01-01' });
    add('unknown as of a date', `${name} with an old status list`, file, { day: '2026-06-01' });
    add('unknown as of a date', `${name} before it begins`, file, { day: '2026-03-01' });
  }
  const none = { revocation: [], suspension: [] };
  add('unknown as of a date', 'a practical with no list', { ...practical.file, status: null });
  add('unknown as of a date', 'leave with no lists', { ...all.file, status: none });
  add('withdrawn', 'a practical withdrawn', taken.file);
  const marked = async (marks: Parameters<typeof statusLists>[1]) => ({
    ...nothing.file,
    status: await statusLists(site, marks),
  });
  add('withdrawn', 'leave on a practical withdrawn', await marked({ revocation: [BASIS_AT[0]] }));
  add('withdrawn', 'leave that rests', await marked({ suspension: [LEAVE_AT] }));
  add('ended', 'leave ended early', await marked({ revocation: [LEAVE_AT] }));

  bent('a result', practical.file, 'event.body.statement.criteria.0.result', 'no');
  bent('a date', practical.file, 'event.body.statement.validUntil', '2037-03-02');
  bent('a trainer', practical.file, 'event.by', 'dev');
  bent('an enrolment', practical.file, 'enrolment.body.label', 'phone');
  bent('a place', practical.file, 'log.event.index', 4);
  bent('a path', practical.file, 'log.event.path.0', toBase64(new Uint8Array(32)));
  bent('a checkpoint', practical.file, 'log.checkpoint', 'x');
  bent('a credential', practical.file, 'credential.name', 'Another');
  bent('a name', practical.file, 'names.trainee.name', 'Tom Okafor');
  bent('a status list', practical.file, 'status.validUntil', '2099-01-01T00:00:00.000Z');
  bent('a field too many', practical.file, 'note', 'Believe me.');
  bent('a part missing', practical.file, 'enrolment', undefined);
  bent('leave: a machine', all.file, 'event.body.statement.bench.asset', 'AL-02');
  bent('leave: work', all.file, 'event.body.statement.work', ['deep']);
  bent('leave: a reading', all.file, 'basis.0.event.body.statement.settings.0.value', 7);
  bent('leave: a result cut out', results.file, 'basis.1.results.criteria.0.result', 'no');
  bent('leave: a leaf', nothing.file, 'basis.0.leaf', toBase64(new Uint8Array(32)));
  bent('leave: a practical less', nothing.file, 'basis', nothing.file.basis.slice(1));
  bent('leave: a giver', all.file, 'names.giver', { ...GIVER, name: 'Dev Pradhan' });
  bent('leave: a second person', all.file, 'second.event.by', 'anna');
  bent('leave: a list of another kind', all.file, 'status.suspension', all.file.status.revocation);
  const elsewhere = await buildStatusList(site, {
    list: 1,
    withdrawn: [],
    asOf: '2026-03-03T11:00:00.000Z',
    validUntil: '2026-04-03T11:00:00.000Z',
  });
  bent('another list’s status', practical.file, 'status', elsewhere);
  const { proof: _, ...credential } = all.file.credential as JsonObject & { proof: unknown };
  const lie = { ...credential, validUntil: '2037-03-02T23:59:59Z' };
  const created = '2026-03-03T11:00:00.000Z';
  bent(
    'leave: a lie of the site',
    all.file,
    'credential',
    await addProof(lie, site, { created, issuer }),
  );
  return files;
}
