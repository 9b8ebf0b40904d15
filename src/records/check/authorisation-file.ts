import type { Bytes } from './bytes.ts';
import {
  countAt,
  groupAt,
  type JsonObject,
  listAt,
  requireFields,
  ShapeError,
  textAt,
  valueAt,
} from './json-shape.ts';
import {
  type LogPlace,
  type ReadPlace,
  readHash,
  readIssuer,
  readName,
  readPlace,
  readShownName,
  type ShownName,
} from './proof-file.ts';
import type { StatusList } from './status-list.ts';

/** First field of the proof file of leave to work. */
export const AUTHORISATION_PROOF_FORMAT = 'signed-to-saw/authorisation-proof/1';

/** How much of the practicals a holder shows, from least to most. */
export const SHOWN_LEVELS = ['nothing', 'results', 'all'] as const;
export type ShownLevel = (typeof SHOWN_LEVELS)[number];

/**
 * What was found at one practical, cut out of its sign-off by the site. The salt keeps a file without it
 * from being tried against a list of likely results.
 */
export type ResultsShown = {
  /** 32 hexadecimal digits */
  readonly salt: string;
  readonly signoff: string;
  readonly criteria: readonly {
    readonly id: string;
    readonly text: string;
    readonly result: string;
  }[];
  readonly conditions: readonly string[];
};

/**
 * One sign-off that leave rests on. Whatever is left out of it, its leaf hash and path still show that it
 * stands in the log, and the credential that it is the sign-off meant.
 */
export type BasisShown = LogPlace &
  (
    | { readonly shown: 'nothing'; readonly leaf: string }
    | { readonly shown: 'results'; readonly leaf: string; readonly results: ResultsShown }
    /** `enrolment`: place in the file's list of enrolments */
    | { readonly shown: 'all'; readonly event: JsonObject; readonly enrolment: number }
  );

type LoggedEvent = LogPlace & { readonly event: JsonObject };

/** Leave to work at one machine, provable without this site and with as little shown as its holder likes. */
export type AuthorisationProofFile = {
  readonly format: typeof AUTHORISATION_PROOF_FORMAT;
  /** Verifiable Credential 2.0 as an Open Badges 3.0 AchievementCredential, signed by the site */
  readonly credential: JsonObject;
  /** the event authorisation.given as the log has it */
  readonly event: JsonObject;
  readonly log: { readonly checkpoint: string; readonly event: LogPlace };
  /** authorisation.seconded by a second person, where the employer asks for one */
  readonly second: LoggedEvent | null;
  /** one for each sign-off the authorisation names, in its order */
  readonly basis: readonly BasisShown[];
  /** device-key.enrolled of every key that signed what is shown whole */
  readonly enrolments: readonly LoggedEvent[];
  readonly names: {
    readonly trainee?: ShownName;
    /** who gave it */
    readonly giver?: ShownName;
    /** trainers who watched, in any order */
    readonly trainers?: readonly ShownName[];
  };
  /** status lists as of some moment; one that is missing reads as "unknown" */
  readonly status: {
    readonly revocation: readonly StatusList[];
    readonly suspension: readonly StatusList[];
  };
};

export type LoggedPart = { readonly event: JsonObject; readonly place: ReadPlace };
export type BasisPart = { readonly place: ReadPlace } & (
  | { readonly shown: 'nothing'; readonly leaf: Bytes }
  | { readonly shown: 'results'; readonly leaf: Bytes; readonly results: JsonObject }
  | { readonly shown: 'all'; readonly event: JsonObject; readonly enrolment: LoggedPart }
);

/** The same, read and ready to check. */
export type AuthorisationParts = {
  readonly kind: 'authorisation';
  readonly issuer: string;
  readonly issuerKey: Bytes;
  readonly credential: JsonObject;
  readonly event: JsonObject;
  readonly eventPlace: ReadPlace;
  readonly checkpoint: string;
  readonly second: LoggedPart | null;
  readonly basis: readonly BasisPart[];
  readonly names: {
    readonly trainee: ShownName | null;
    readonly giver: ShownName | null;
    readonly trainers: readonly ShownName[];
  };
  readonly revocation: readonly JsonObject[];
  readonly suspension: readonly JsonObject[];
};

const FIELDS = [
  'format',
  'credential',
  'event',
  'log',
  'second',
  'basis',
  'enrolments',
  'names',
  'status',
];

function readLogged(group: JsonObject, where: string): LoggedPart {
  requireFields(group, where, ['event', 'index', 'path']);
  return { event: groupAt(group, 'event'), place: readPlace(group, where) };
}

function readBasis(group: JsonObject, where: string, enrolments: readonly LoggedPart[]): BasisPart {
  const shown = valueAt(group, 'shown');
  if (shown === 'all') {
    requireFields(group, where, ['shown', 'event', 'enrolment', 'index', 'path']);
    const enrolment = enrolments[countAt(group, 'enrolment')];
    if (enrolment === undefined)
      throw new ShapeError(`${where}.enrolment must be a place in the list of enrolments`);
    return { shown, event: groupAt(group, 'event'), enrolment, place: readPlace(group, where) };
  }
  const leaf = readHash(valueAt(group, 'leaf'), `${where}.leaf`);
  if (shown === 'nothing') {
    requireFields(group, where, ['shown', 'leaf', 'index', 'path']);
    return { shown, leaf, place: readPlace(group, where) };
  }
  if (shown !== 'results')
    throw new ShapeError(`${where}.shown must be one of: ${SHOWN_LEVELS.join(', ')}`);
  requireFields(group, where, ['shown', 'leaf', 'results', 'index', 'path']);
  return { shown, leaf, results: groupAt(group, 'results'), place: readPlace(group, where) };
}

function readTrainers(names: JsonObject): ShownName[] {
  if (!Object.hasOwn(names, 'trainers')) return [];
  const shown = listAt(names, 'trainers').map((_, at) =>
    readShownName(groupAt(names, 'trainers', at), `names.trainers[${at}]`),
  );
  if (shown.length === 0) throw new ShapeError('names.trainers must be left out when it is empty');
  return shown;
}

const groupsAt = (group: JsonObject, field: string): JsonObject[] =>
  listAt(group, field).map((_, at) => groupAt(group, field, at));

/**
 * The parts of the proof of leave to work.
 * @throws ShapeError naming the field and what it must be
 */
export function readAuthorisationParts(file: JsonObject): AuthorisationParts {
  requireFields(file, 'The file', FIELDS);
  requireFields(groupAt(file, 'log'), 'log', ['checkpoint', 'event']);
  requireFields(groupAt(file, 'log', 'event'), 'log.event', ['index', 'path']);
  const names = groupAt(file, 'names');
  const stray = Object.keys(names).find((who) => !['trainee', 'giver', 'trainers'].includes(who));
  if (stray !== undefined) throw new ShapeError(`names has no field named ${stray}`);
  const status = groupAt(file, 'status');
  requireFields(status, 'status', ['revocation', 'suspension']);
  const enrolments = groupsAt(file, 'enrolments').map((one, at) =>
    readLogged(one, `enrolments[${at}]`),
  );
  const basis = groupsAt(file, 'basis').map((one, at) =>
    readBasis(one, `basis[${at}]`, enrolments),
  );
  // nothing in a file lies idle: what no check looks at could be anything
  const idle = enrolments.findIndex((one) =>
    basis.every((part) => part.shown !== 'all' || part.enrolment !== one),
  );
  if (idle !== -1) throw new ShapeError(`enrolments[${idle}] must belong to a sign-off shown`);
  return {
    kind: 'authorisation',
    ...readIssuer(file),
    credential: groupAt(file, 'credential'),
    event: groupAt(file, 'event'),
    eventPlace: readPlace(groupAt(file, 'log', 'event'), 'log.event'),
    checkpoint: textAt(file, 'log', 'checkpoint'),
    second: valueAt(file, 'second') === null ? null : readLogged(groupAt(file, 'second'), 'second'),
    basis,
    names: {
      trainee: readName(names, 'trainee'),
      giver: readName(names, 'giver'),
      trainers: readTrainers(names),
    },
    revocation: groupsAt(status, 'revocation'),
    suspension: groupsAt(status, 'suspension'),
  };
}
