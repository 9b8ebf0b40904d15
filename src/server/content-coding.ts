/** Whether a reply of this type gets smaller by compressing it. */
export function isText(contentType: string): boolean {
  return /^(text\/|image\/svg|application\/(json|.*\+json|javascript|xml|ld\+json))/.test(
    contentType,
  );
}

/** The better coding the browser takes (RFC 9110 section 12.5.3), or null for none. */
export function acceptedCoding(acceptEncoding: string | undefined): 'br' | 'gzip' | null {
  const accepted = new Set<string>();
  for (const part of (acceptEncoding ?? '').toLowerCase().split(',')) {
    const [name = '', ...parameters] = part.split(';').map((piece) => piece.trim());
    const weight = parameters.find((parameter) => parameter.startsWith('q='));
    if (weight === undefined || Number(weight.slice(2)) > 0) accepted.add(name);
  }
  if (accepted.has('br')) return 'br';
  return accepted.has('gzip') ? 'gzip' : null;
}
