import { describe, expect, it } from 'vitest';
import {
  type Action,
  can,
  PERMISSIONS,
  ROLES,
  type Role,
  type Viewer,
} from '../../src/accounts/index.ts';

const viewerIn = (role: Role): Viewer => ({
  person: 'me',
  org: 'org-1',
  name: 'Me',
  email: 'me@x.example',
  role,
  signedInAt: '2026-03-03T09:30:00.000Z',
});

const SUBJECTS = {
  self: { org: 'org-1', person: 'me' },
  other: { org: 'org-1', person: 'somebody' },
  whole: { org: 'org-1' },
  foreign: { org: 'org-2', person: 'somebody' },
} as const;

/**
 * Every action x role, written out apart from the code, from the rules of the site: a trainee works and
 * reads about themselves, a trainer acts on others and never on themselves, an employer reads, and gives and
 * takes leave to work at a machine.
 * Letters: s about oneself, o about somebody else, w about the organisation as a whole.
 */
const EXPECTED: Readonly<Record<Action, Readonly<Record<Role, string>>>> = {
  'attempt.make': { trainee: 's', trainer: 's', employer: '' },
  'attempt.read': { trainee: 's', trainer: 'sow', employer: '' },
  'attempt.set': { trainee: '', trainer: 'o', employer: '' },
  'attempt.release': { trainee: '', trainer: 'o', employer: '' },
  'person.read': { trainee: 's', trainer: 'sow', employer: 'sow' },
  'people.list': { trainee: '', trainer: 'sow', employer: 'sow' },
  'board.read': { trainee: '', trainer: 'sow', employer: '' },
  'who-may.read': { trainee: '', trainer: 'sow', employer: 'sow' },
  'export.make': { trainee: '', trainer: 'sow', employer: 'sow' },
  'bench.read': { trainee: 'sow', trainer: 'sow', employer: 'sow' },
  'bench.check': { trainee: 'sow', trainer: 'sow', employer: '' },
  'bench.take-out': { trainee: 'sow', trainer: 'sow', employer: 'sow' },
  'bench.return': { trainee: '', trainer: 'sow', employer: '' },
  'near-miss.report': { trainee: 'sow', trainer: 'sow', employer: 'sow' },
  'bench.register': { trainee: '', trainer: 'sow', employer: '' },
  'practical.read': { trainee: 's', trainer: 'sow', employer: 'sow' },
  'practical.write': { trainee: '', trainer: 'o', employer: '' },
  'practical.sign': { trainee: '', trainer: 'o', employer: '' },
  'practical.withdraw': { trainee: '', trainer: 'o', employer: '' },
  'practical.cosign': { trainee: '', trainer: 'o', employer: '' },
  'practical.answer': { trainee: 's', trainer: 's', employer: '' },
  'appeal.settle': { trainee: '', trainer: 'o', employer: 'o' },
  'practice.note': { trainee: 's', trainer: 'sow', employer: '' },
  'practice.confirm': { trainee: 'o', trainer: 'o', employer: '' },
  'practice.read': { trainee: 's', trainer: 'sow', employer: 'sow' },
  'authorisation.read': { trainee: 's', trainer: 'sow', employer: 'sow' },
  'authorisation.give': { trainee: '', trainer: 'o', employer: 'o' },
  'authorisation.second': { trainee: '', trainer: 'o', employer: 'o' },
  'authorisation.suspend': { trainee: '', trainer: 'o', employer: 'o' },
  'authorisation.refresh': { trainee: '', trainer: 'o', employer: '' },
  'authorisation.end': { trainee: '', trainer: 'o', employer: 'o' },
  'rules.set': { trainee: '', trainer: 'sow', employer: 'sow' },
  'due.read': { trainee: 's', trainer: 'sow', employer: 'sow' },
  'feed.make': { trainee: 's', trainer: 's', employer: 's' },
  'group.set': { trainee: '', trainer: 'sow', employer: '' },
  'kit.read': { trainee: '', trainer: 's', employer: '' },
  'proof.read': { trainee: 's', trainer: 'sow', employer: 'sow' },
  'pack.make': { trainee: '', trainer: 'sow', employer: 'sow' },
  'share.make': { trainee: '', trainer: 'sow', employer: 'sow' },
  'checkpoint.read': { trainee: '', trainer: 'sow', employer: 'sow' },
  'device-key.enrol': { trainee: '', trainer: 's', employer: '' },
  'device-key.end': { trainee: '', trainer: 's', employer: '' },
  'device-key.end-other': { trainee: '', trainer: 'o', employer: 'o' },
  'pass-mark.set': { trainee: '', trainer: 'sow', employer: '' },
  'test-figures.read': { trainee: '', trainer: 'sow', employer: '' },
  'learning.keep': { trainee: 's', trainer: 's', employer: '' },
  'lessons-done.read': { trainee: 's', trainer: 'sow', employer: '' },
  'sign-in.reset-trainee': { trainee: '', trainer: 'o', employer: 'o' },
  'sign-in.reset-anybody': { trainee: '', trainer: '', employer: 'o' },
  'earlier.import': { trainee: '', trainer: 'sow', employer: '' },
  'my-data.read': { trainee: 's', trainer: 's', employer: 's' },
  'person.erase': { trainee: '', trainer: 'o', employer: 'o' },
  'organisation-data.read': { trainee: '', trainer: '', employer: 'sow' },
  'invitation.make': { trainee: '', trainer: 'sow', employer: '' },
};

const ACTIONS = Object.keys(PERMISSIONS) as Action[];
const CELLS = ACTIONS.flatMap((action) =>
  ROLES.flatMap((role) =>
    (Object.keys(SUBJECTS) as (keyof typeof SUBJECTS)[]).map((subject) => ({
      action,
      role,
      subject,
      allowed: (EXPECTED[action]?.[role] ?? '').includes(
        { self: 's', other: 'o', whole: 'w', foreign: '-' }[subject],
      ),
    })),
  ),
);

describe('who may do what', () => {
  it('has an answer of its own for every action', () => {
    expect(Object.keys(EXPECTED).sort()).toEqual([...ACTIONS].sort());
    expect(CELLS).toHaveLength(ACTIONS.length * ROLES.length * 4);
  });

  it.each(CELLS)(
    '$role, $action, about $subject: $allowed',
    ({ action, role, subject, allowed }) => {
      expect(can(viewerIn(role), action, SUBJECTS[subject])).toBe(allowed);
    },
  );

  it.each(ACTIONS)('nobody who is not signed in may %s', (action) => {
    for (const subject of Object.values(SUBJECTS)) expect(can(null, action, subject)).toBe(false);
  });

  it('lets an employer write of leave to work, of machines and devices that must stand still of new passwords and of erasing and of what an inspector is shown, and nothing else', () => {
    const theirs =
      /^(authorisation|rules|feed|appeal)\.|^bench\.take-out$|^near-miss\.|^people\.list$|^export\.make$|^person\.erase$|^device-key\.end-other$|^sign-in\.reset-|^(pack|share)\.make$/;
    const writes = ACTIONS.filter((action) => !action.endsWith('.read') && !theirs.test(action));
    expect(writes.length).toBeGreaterThan(5);
    for (const action of writes) {
      for (const subject of Object.values(SUBJECTS)) {
        expect(can(viewerIn('employer'), action, subject), action).toBe(false);
      }
    }
  });
});
