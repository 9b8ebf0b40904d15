export { askForRoute } from './asked-by.ts';
export * from './auth.ts';
export * from './bulk/index.ts';
export * from './calendar-address.ts';
export * from './can.ts';
export { type DemoSignIn, fillDemoWorkshop } from './demo-workshop.ts';
export * from './earlier/index.ts';
export * from './factors/index.ts';

export { LONGEST_PASSWORD, SHORTEST_PASSWORD } from './field-rules.ts';
export type {
  InvitationInput,
  OrganisationInput,
  PersonInput,
  SignInInput,
} from './fields.ts';
export * from './groups.ts';
export * from './http.ts';
export * from './invitations.ts';
export { costOf } from './limit/cost-of.ts';
export {
  type CountedBy,
  makeRequestLimit,
  type RequestLimits,
  takeRequest,
  useRequestLimit,
} from './limit/request-limit.ts';
export * from './organisation.ts';
export { makePassphrase } from './passphrase.ts';
export * from './people.ts';
export { printResetLink } from './printed-link.ts';
export * from './privacy/index.ts';
export { grant, type Outcome, type Refusal, refuse, refuseAs } from './problems.ts';
export * from './reset-links.ts';

export { openToken, sealToken } from './sealed-token.ts';
export { ownSessionOf, signIn, signOut, viewerOf } from './session.ts';
export * from './sessions/index.ts';
export { changePassword, setPassword } from './set-password.ts';
export * from './share-link.ts';
export * from './sign-in-ticket.ts';
export * from './site.ts';
export * from './viewer.ts';
