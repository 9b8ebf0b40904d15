import type { AuthorisationParts, BasisPart } from './authorisation-file.ts';
import { evidenceIn } from './check-basis.ts';
import { isNameOf, trainerHashes } from './check-names.ts';
import { groupAt, listAt, textAt, valueAt } from './json-shape.ts';
import type { PracticalShown, ProvedAuthorisation } from './verdict.ts';

/*
 * Reads what a file found whole says. Everything read here was checked by its schema before it was signed.
 */

function resultsOf(part: BasisPart): PracticalShown['criteria'] {
  if (part.shown === 'nothing') return [];
  const from = part.shown === 'all' ? groupAt(part.event, 'body', 'statement') : part.results;
  return listAt(from, 'criteria').map((one) => ({
    text: textAt(one, 'text'),
    result: textAt(one, 'result'),
  }));
}

function settingsOf(part: BasisPart): PracticalShown['settings'] {
  if (part.shown !== 'all') return [];
  return listAt(part.event, 'body', 'statement', 'settings').map((one) => ({
    measure: textAt(one, 'measure'),
    value: Number(valueAt(one, 'value')),
    unit: textAt(one, 'unit'),
    instrument: textAt(one, 'instrument'),
    verdict: textAt(one, 'verdict'),
  }));
}

const millimetres = (value: unknown): number | null => (typeof value === 'number' ? value : null);

export function readAuthorisation(parts: AuthorisationParts): ProvedAuthorisation {
  const { basis, credential, event, names } = parts;
  const statement = groupAt(event, 'body', 'statement');
  const hashes = trainerHashes(parts);
  const ids = listAt(statement, 'basis').map(String);
  return {
    kind: 'authorisation',
    trainee: names.trainee?.name ?? null,
    giver: names.giver?.name ?? null,
    organisation: textAt(credential, 'issuer', 'name'),
    authorisation: textAt(statement, 'id'),
    work: listAt(statement, 'work').map(String),
    bench: textAt(statement, 'bench', 'asset'),
    machine: textAt(credential, 'credentialSubject', 'achievement', 'specialization'),
    supervised: valueAt(statement, 'supervised') === 'always' ? 'always' : 'as-usual',
    largest: {
      thickness: millimetres(valueAt(statement, 'largest', 'thickness')),
      length: millimetres(valueAt(statement, 'largest', 'length')),
    },
    conditions: listAt(statement, 'conditions').map(String),
    practicals: basis.map((part, at): PracticalShown => {
      const evidence = evidenceIn(credential, ids[at] as string);
      const trainer = names.trainers.find((shown) => isNameOf(shown, hashes[at] as string));
      return {
        signoff: ids[at] as string,
        unit: textAt(evidence, 'name'),
        observedAt: textAt(evidence, 'observedAt'),
        trainer: trainer?.name ?? null,
        shown: part.shown,
        criteria: resultsOf(part),
        settings: settingsOf(part),
      };
    }),
    validFrom: textAt(statement, 'from'),
    validUntil: textAt(statement, 'until'),
  };
}
