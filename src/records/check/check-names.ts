import type { AuthorisationParts } from './authorisation-file.ts';
import { evidenceIn } from './check-basis.ts';
import { type JsonObject, listAt, textAt } from './json-shape.ts';
import { nameHash } from './name-hash.ts';
import type { ShownName } from './proof-file.ts';
import { type Check, judge } from './verdict.ts';

/** Whether a name with its salt is the one a hash was made from. */
export const isNameOf = ({ name, salt }: ShownName, signed: string): boolean =>
  /^[0-9a-f]{32}$/.test(salt) && nameHash(name, salt) === signed;

/** Hash of the name of the trainer who watched, as the credential has it. */
const trainerHash = (credential: JsonObject, signoff: string): string =>
  textAt(evidenceIn(credential, signoff), 'creator', 'otherIdentifier', 0, 'identifier');

/** Hash of each practical's trainer, in the order of the practicals. */
export const trainerHashes = ({ credential, event }: AuthorisationParts): string[] =>
  listAt(event, 'body', 'statement', 'basis').map((id) => trainerHash(credential, String(id)));

type Sentences = { readonly none: string; readonly not: string; readonly ok: string };

const TRAINEE: Sentences = {
  none: "The file does not show the trainee's name.",
  not: "The trainee's name is not the one signed for.",
  ok: "The trainee's name is the one signed for.",
};
const GIVER: Sentences = {
  none: 'The file does not show who gave it.',
  not: 'The name of who gave it is not the one logged.',
  ok: 'The name of who gave it is the one logged.',
};

function checkOne(
  id: 'trainee' | 'giver',
  shown: ShownName | null,
  { signed, say }: { readonly signed: string; readonly say: Sentences },
): Check {
  if (shown === null) return { id, state: 'unknown', sentence: say.none };
  return judge(id, isNameOf(shown, signed) ? null : say.not, say.ok);
}

/** Whether the names shown are those of the log: holder, giver, and trainers. */
export function checkGivers(parts: AuthorisationParts): Check[] {
  const { event, names } = parts;
  const { giver, trainee, trainers } = names;
  const people = [
    checkOne('trainee', trainee, {
      signed: textAt(event, 'body', 'statement', 'who', 'nameHash'),
      say: TRAINEE,
    }),
    checkOne('giver', giver, {
      signed: textAt(event, 'body', 'statement', 'by', 'nameHash'),
      say: GIVER,
    }),
  ];
  const known = knownHashes(parts);
  const stranger = trainers.some((shown) => !known.some((hash) => isNameOf(shown, hash)));
  const isNamed = known.every((hash) => trainers.some((shown) => isNameOf(shown, hash)));
  const id = 'trainer';
  if (stranger)
    return [...people, judge(id, "A trainer's name is not one that was signed for.", '')];
  return [
    ...people,
    isNamed && known.length > 0
      ? judge(id, null, 'The names of the trainers are the ones signed for.')
      : { id, state: 'unknown', sentence: "The file does not show every trainer's name." },
  ];
}

/** Nobody's, where a practical is missing: another check says so. */
function knownHashes(parts: AuthorisationParts): string[] {
  const ids = listAt(parts.event, 'body', 'statement', 'basis').map(String);
  return ids.every((id) => evidenceIn(parts.credential, id) !== undefined)
    ? trainerHashes(parts)
    : [];
}
