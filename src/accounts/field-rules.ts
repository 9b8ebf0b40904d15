/** Shortest password accepted, characters. Also printed beside the field. */
export const SHORTEST_PASSWORD = 12;
/** Longest password accepted, characters: beyond it a hash only costs time. */
export const LONGEST_PASSWORD = 128;
export const LONGEST_NAME = 80;
/** RFC 5321 path limit, characters. */
export const LONGEST_EMAIL = 254;

type Rule = {
  /** what follows the name of the field, in English */
  readonly says: string;
  /** its sentence in the sheet `refusals` */
  readonly key: string;
  readonly put: Readonly<Record<string, number>>;
};

/** What a field of an account form must be, each once. */
export const FIELD_RULES = {
  name: {
    says: `must be 1 to ${LONGEST_NAME} characters on one line`,
    key: 'rule.name',
    put: { most: LONGEST_NAME },
  },
  email: {
    says: 'must be an e-mail address like name@example.com',
    key: 'rule.email',
    put: {},
  },
  emailLong: {
    says: `must be at most ${LONGEST_EMAIL} characters`,
    key: 'rule.email-long',
    put: { most: LONGEST_EMAIL },
  },
  passwordShort: {
    says: `must be at least ${SHORTEST_PASSWORD} characters`,
    key: 'rule.password-short',
    put: { least: SHORTEST_PASSWORD },
  },
  passwordLong: {
    says: `must be at most ${LONGEST_PASSWORD} characters`,
    key: 'rule.password-long',
    put: { most: LONGEST_PASSWORD },
  },
  filled: { says: 'must be filled in', key: 'rule.filled', put: {} },
  role: { says: 'must be trainee, trainer or employer', key: 'rule.role', put: {} },
} as const satisfies Record<string, Rule>;

/** The rule a schema's sentence belongs to. */
export const ruleOf = (says: string): Rule | undefined =>
  Object.values(FIELD_RULES).find((rule) => rule.says === says);
