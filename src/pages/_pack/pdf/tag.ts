/** What a tagged piece says of itself beside its kind. */
export type TagOptions = {
  readonly lang?: string;
  readonly title?: string;
  /** what is said instead of a picture */
  readonly alt?: string;
  /** of a head cell */
  readonly scope?: 'Column' | 'Row';
  /** left, top, right, bottom in points from the top of the page */
  readonly bbox?: readonly [number, number, number, number];
};

/** A tagged piece of a document. It is closed once all its pieces are in it. */
export type Tag = {
  readonly add: (child: Tag) => unknown;
  readonly end: () => void;
};

type Struct = (type: string, options: object, draw?: () => void) => unknown;

/** A tagged piece, of the structure types of ISO 32000-1 section 14.8.4; with `draw` it is whole at once. */
export function tag(
  doc: PDFKit.PDFDocument,
  type: string,
  options: TagOptions = {},
  draw?: () => void,
): Tag {
  const { bbox, ...rest } = options;
  const all = bbox === undefined ? rest : { ...rest, bbox: [...bbox], placement: 'Block' };
  // the library's types know fewer options than the library
  const struct = doc.struct.bind(doc) as unknown as Struct;
  return (draw === undefined ? struct(type, all) : struct(type, all, draw)) as Tag;
}

/** The piece that everything else lies in. */
export function tagDocument(doc: PDFKit.PDFDocument): Tag {
  const root = tag(doc, 'Document');
  doc.addStructure(root as unknown as Parameters<typeof doc.addStructure>[0]);
  return root;
}
