import { z } from 'zod';
import { FIELD_RULES } from './field-rules.ts';

/** The three people who use the site. Order: as they appear in lists. */
export const ROLES = ['trainee', 'trainer', 'employer'] as const;
export const RoleSchema = z.enum(ROLES, { error: FIELD_RULES.role.says });
export type Role = z.infer<typeof RoleSchema>;

/** Who is looking: a signed-in member of an organisation. `signedInAt` is an ISO instant in UTC. */
export type Viewer = {
  readonly person: string;
  readonly org: string;
  readonly name: string;
  readonly email: string;
  readonly role: Role;
  readonly signedInAt: string;
};
