import { LONGEST_NAME } from '../field-rules.ts';
import { NameSchema } from '../fields.ts';
import { plainName } from '../groups.ts';
import { ROLES, type Role } from '../viewer.ts';
import { type Column, type ListProblem, type ListRow, readList } from './read-list.ts';

/** Somebody to be invited. */
export type PlannedInvitation = {
  readonly row: number;
  readonly name: string;
  readonly role: Role;
  /** name of the group as it is, or will be, called; null for none */
  readonly group: string | null;
};

export type InvitationPlan = {
  readonly good: readonly PlannedInvitation[];
  /** by row */
  readonly problems: readonly ListProblem[];
  /** groups of good rows that are not there yet */
  readonly newGroups: readonly string[];
};

/** What there is already in the organisation. */
export type KnownPeople = {
  readonly members: readonly string[];
  readonly invited: readonly string[];
  readonly groups: readonly string[];
};

/** How a role may be written in a list: as here, or as either language says it. */
const ROLE_WORDS: Readonly<Record<string, Role>> = {
  trainee: 'trainee',
  lernend: 'trainee',
  lernende: 'trainee',
  lernender: 'trainee',
  trainer: 'trainer',
  ausbildend: 'trainer',
  ausbildende: 'trainer',
  ausbilder: 'trainer',
  ausbilderin: 'trainer',
  employer: 'employer',
  betrieb: 'employer',
};

type Judge = (row: ListRow) => ListProblem | null;

const about =
  (column: Column, key: string, put: ListProblem['put'] = {}) =>
  ({ row }: ListRow): ListProblem => ({ row, column, key, put });

/** What a name may not be, the first that applies. Rows gone through before are remembered. */
function judgeNames(known: KnownPeople): Judge {
  const members = new Set(known.members.map(plainName));
  const invited = new Set(known.invited.map(plainName));
  const rows = new Map<string, number>();
  return (row) => {
    if (row.name === '') return about('name', 'name.missing')(row);
    if ([...row.name].length > LONGEST_NAME) {
      return about('name', 'name.long', { most: LONGEST_NAME })(row);
    }
    if (!NameSchema.safeParse(row.name).success) return about('name', 'name.signs')(row);
    const plain = plainName(row.name);
    const before = rows.get(plain);
    if (before !== undefined) return about('name', 'name.twice', { before })(row);
    rows.set(plain, row.row);
    if (members.has(plain)) return about('name', 'name.member')(row);
    return invited.has(plain) ? about('name', 'name.invited')(row) : null;
  };
}

function judgeRole(row: ListRow): ListProblem | null {
  if (row.role === '') return about('role', 'role.missing')(row);
  if (ROLE_WORDS[row.role.toLowerCase()] !== undefined) return null;
  return about('role', 'role.unknown', { role: row.role.slice(0, 40), roles: ROLES.join(', ') })(
    row,
  );
}

/**
 * What inviting a list of people would do, and every reason against a row of it. Makes nothing.
 * @param groups `make`: a group that is not there is made; `refuse`: a row that names one is a problem
 */
export function planInvitations(
  text: string,
  known: KnownPeople,
  groups: 'make' | 'refuse',
): InvitationPlan {
  const { rows, problems } = readList(text);
  const names = new Map(known.groups.map((name) => [plainName(name), name]));
  const judgeName = judgeNames(known);
  const judgeGroup: Judge = (row) => {
    if (row.group === '' || names.has(plainName(row.group))) return null;
    if (!NameSchema.safeParse(row.group).success) {
      return about('group', 'group.long', { most: LONGEST_NAME })(row);
    }
    return groups === 'make' ? null : about('group', 'group.unknown', { group: row.group })(row);
  };
  const good: PlannedInvitation[] = [];
  const found: ListProblem[] = [...problems];
  const fresh = new Map<string, string>();
  for (const row of rows) {
    const against = [judgeName(row), judgeRole(row), judgeGroup(row)].filter((one) => one !== null);
    found.push(...against);
    const role = ROLE_WORDS[row.role.toLowerCase()];
    if (against.length > 0 || role === undefined) continue;
    const plain = plainName(row.group);
    if (row.group !== '' && !names.has(plain) && !fresh.has(plain)) fresh.set(plain, row.group);
    const group = row.group === '' ? null : (names.get(plain) ?? fresh.get(plain) ?? null);
    good.push({ row: row.row, name: row.name, role, group });
  }
  found.sort((a, b) => (a.row ?? 0) - (b.row ?? 0));
  return { good, problems: found, newGroups: [...fresh.values()] };
}
