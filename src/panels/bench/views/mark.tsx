type Kind = 'prohibition' | 'warning' | 'mandatory' | 'safe' | 'advice' | 'none';

/** A severity mark from the site's sprite. It is never alone: the word stands beside it. */
export function Mark({ kind }: { readonly kind: Kind }) {
  return (
    <svg class="mark" aria-hidden="true" focusable="false">
      <use href={`/marks.svg#${kind}`} />
    </svg>
  );
}
