import Papa from 'papaparse';
import type { MadeInvitation } from './invite-many.ts';

/**
 * The links as a table to hand out, with the mark that makes an office program read it as UTF-8. A cell that
 * would be taken for a formula there begins with an apostrophe (OWASP, CSV injection).
 * @param headings of the five columns: name, role, group, link, works until
 * @param addressOf the whole address of a path of this site
 */
export function writeLinks(
  made: readonly MadeInvitation[],
  headings: readonly string[],
  addressOf: (path: string) => string,
): string {
  const rows = made.map(({ name, role, group, path, expires }) => [
    name,
    role,
    group ?? '',
    addressOf(path),
    expires.slice(0, 10),
  ]);
  return `\uFEFF${Papa.unparse([[...headings], ...rows], { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}
