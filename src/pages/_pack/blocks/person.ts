import type { Speaker } from '../../../words/say.ts';
import type { PackContent, PackPerson } from '../content.ts';
import type { Block } from './block.ts';
import { sayLeave } from './leave.ts';
import { saySheet } from './sheet.ts';

/** One person: their authorisations in force, then the signed sheets that held. */
export function sayPerson(person: PackPerson, content: PackContent, say: Speaker): Block[] {
  const { leaves, name, role, sheets } = person;
  return [
    { kind: 'page', turned: 'upright' },
    {
      kind: 'heading',
      level: 1,
      words: say('pack.doc.name-role', { name, role: say.maybe(`frame.role.${role}`, role) }),
    },
    { kind: 'heading', level: 2, words: say('pack.doc.leaves') },
    ...(leaves.length === 0 ? [{ kind: 'text' as const, words: say('pack.doc.leaves.none') }] : []),
    ...leaves.flatMap((leave) => sayLeave(leave, name, say)),
    { kind: 'heading', level: 2, words: say('pack.doc.sheets') },
    ...(sheets.length === 0 ? [{ kind: 'text' as const, words: say('pack.doc.sheets.none') }] : []),
    ...sheets.flatMap((sheet) => saySheet(sheet, name, content, say)),
  ];
}

/** People with nothing signed and nothing in writing have no section: the matrix says so of them. */
export const hasRecords = ({ leaves, sheets }: PackPerson): boolean =>
  leaves.length + sheets.length > 0;
