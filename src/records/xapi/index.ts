export { type XapiStatement, XapiStatementSchema } from './statement-schema.ts';
export { makeStatements, toJsonLine, XAPI_KINDS } from './write-statements.ts';
