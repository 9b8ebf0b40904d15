import type { Speaker } from '../../../words/say.ts';
import type { PackContent } from '../content.ts';
import { sayBack } from './back.ts';
import type { Block } from './block.ts';
import { sayCover } from './cover.ts';
import { sayMatrix } from './matrix.ts';
import { hasRecords, sayPerson } from './person.ts';

/** The whole document: what it is, who may do what, each person, and what it was all held against. */
export const sayDocument = (content: PackContent, say: Speaker): Block[] => [
  ...sayCover(content, say),
  ...sayMatrix(content, say),
  ...content.people.filter(hasRecords).flatMap((person) => sayPerson(person, content, say)),
  ...sayBack(content, say),
];
