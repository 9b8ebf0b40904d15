export * from './check-list.ts';
export * from './invite-many.ts';
export * from './links-csv.ts';
export * from './plan-invitations.ts';
export * from './read-list.ts';
export * from './read-table.ts';
