export * from './audit/audit-log.ts';
export * from './check/index.ts';
export * from './events/index.ts';
export { DateSchema, InstantSchema, PrivateJwkSchema, PublicJwkSchema } from './fields.ts';
export * from './proof/build-proof.ts';
export type { Alignment } from './proof/credential.ts';
export * from './proof/proof-file-schema.ts';
export * from './statement/statement-schema.ts';
