/**
 * Test files that run a second time with their site on PostgreSQL. A file that opens a site belongs here or says
 * in `ON_ONE_ENGINE` why not; `tests/house/engines` holds it to that.
 */
export const ON_BOTH_ENGINES: readonly string[] = [
  'tests/access/matrix.test.ts',
  'tests/accounts/bulk.test.ts',
  'tests/accounts/calendar-address.test.ts',
  'tests/accounts/demo-workshop.test.ts',
  'tests/accounts/earlier.test.ts',
  'tests/accounts/erase.test.ts',
  'tests/accounts/forget-expired.test.ts',
  'tests/accounts/groups.test.ts',
  'tests/accounts/hash-anew.test.ts',
  'tests/accounts/invitations.test.ts',
  'tests/accounts/lock-out.test.ts',
  'tests/accounts/new-password.test.ts',
  'tests/accounts/organisation-data.test.ts',
  'tests/accounts/organisation.test.ts',
  'tests/accounts/protection.test.ts',
  'tests/accounts/refusal-words.test.ts',
  'tests/accounts/reset-links.test.ts',
  'tests/accounts/second-step.test.ts',
  'tests/accounts/session.test.ts',
  'tests/accounts/sessions.test.ts',
  'tests/accounts/share-link.test.ts',
  'tests/accounts/sign-in-ticket.test.ts',
  'tests/attempts/attempts.test.ts',
  'tests/attempts/pass-mark.test.ts',
  'tests/attempts/sittings.test.ts',
  'tests/attempts/test-sittings.test.ts',
  'tests/book/authorise.test.ts',
  'tests/book/keep-count.test.ts',
  'tests/book/matrix.test.ts',
  'tests/book/reach.test.ts',
  'tests/house/data-map.test.ts',
  'tests/learning/keep-answers.test.ts',
  'tests/pack/zip.test.ts',
  'tests/practical/answer.test.ts',
  'tests/practical/bad-bodies.test.ts',
  'tests/practical/cosign.test.ts',
  'tests/practical/devices.test.ts',
  'tests/practical/erased-trainer.test.ts',
  'tests/practical/leave-proof.test.ts',
  'tests/practical/receive.test.ts',
  'tests/practical/received-late.test.ts',
  'tests/practical/rights-on-practical.test.ts',
  'tests/practical/write-rights.test.ts',
  'tests/register/desk.test.ts',
  'tests/register/practice.test.ts',
  'tests/store/event-reader.test.ts',
  'tests/store/find-events.test.ts',
];

/** Why a file that opens a site or store does so on one engine alone. */
export const ON_ONE_ENGINE: Readonly<Record<string, string>> = {
  'tests/access/request-limit.test.ts':
    'asks a site of its own process too often; the count is kept beside the tables, in the process',
  'tests/access/downloads.test.ts': 'names of files, which no database sees',
  'tests/accounts/lock-out-properties.test.ts':
    'measures what hashing costs, and tries properties of sums; lock-out runs on both',
  'tests/faults/server/no-room.test.ts': 'a full disk under SQLite; no-room-postgres is the other',
  'tests/pack/least-words.test.ts':
    'reads what is said; the same pack is read from both in tests/pack/zip',
  'tests/pack/pdf.test.ts':
    'reads what is printed; the same pack is read from both in tests/pack/zip',
  'tests/records/commands.test.ts': 'commands that read files',
  'tests/regressions/data-folder-in-proc.test.ts': 'a folder that cannot be made',
  'tests/server/watch/security.test.ts':
    'lines of the log; what is told is the same on both engines',
  'tests/server/watch/ready.test.ts':
    'files of SQLite that are taken away; tests/faults/server/away asks the same of PostgreSQL',
  'tests/store/backup/progress.test.ts':
    'counts what was copied of a file; tests/store/backup/postgres is the other',
  'tests/store/backup/refused.test.ts':
    'files of a backup; tests/store/backup/postgres is the other',
  'tests/store/backup/while-running.test.ts':
    'vacuum into; tests/store/backup/postgres is the other',
  'tests/store/site-key.test.ts': 'the file of the key',
};
