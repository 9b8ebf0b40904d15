import ts from 'typescript';

/** One small change to a source file that some test ought to notice. */
export type Mutant = {
  readonly id: number;
  readonly file: string;
  readonly line: number;
  /** what stood there, and what stands there now */
  readonly was: string;
  readonly now: string;
};

type Change = { readonly was: string; readonly now: string; readonly text: string };

const SWAPPED: Partial<Record<ts.SyntaxKind, readonly string[]>> = {
  [ts.SyntaxKind.PlusToken]: ['-'],
  [ts.SyntaxKind.MinusToken]: ['+'],
  [ts.SyntaxKind.AsteriskToken]: ['/'],
  [ts.SyntaxKind.SlashToken]: ['*'],
  [ts.SyntaxKind.PercentToken]: ['*'],
  [ts.SyntaxKind.AsteriskAsteriskToken]: ['*'],
  [ts.SyntaxKind.LessThanToken]: ['<=', '>='],
  [ts.SyntaxKind.LessThanEqualsToken]: ['<', '>'],
  [ts.SyntaxKind.GreaterThanToken]: ['>=', '<='],
  [ts.SyntaxKind.GreaterThanEqualsToken]: ['>', '<'],
  [ts.SyntaxKind.EqualsEqualsEqualsToken]: ['!=='],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken]: ['==='],
  [ts.SyntaxKind.AmpersandAmpersandToken]: ['||'],
  [ts.SyntaxKind.BarBarToken]: ['&&'],
  [ts.SyntaxKind.QuestionQuestionToken]: ['&&'],
  [ts.SyntaxKind.PlusEqualsToken]: ['-='],
  [ts.SyntaxKind.MinusEqualsToken]: ['+='],
  [ts.SyntaxKind.BarToken]: ['&'],
  [ts.SyntaxKind.AmpersandToken]: ['|'],
  [ts.SyntaxKind.LessThanLessThanToken]: ['>>'],
};

/** Methods and functions with an opposite; the name alone is changed. */
const OPPOSITE: Readonly<Record<string, string>> = {
  min: 'max',
  max: 'min',
  sin: 'cos',
  cos: 'sin',
  asin: 'acos',
  acos: 'asin',
  floor: 'ceil',
  ceil: 'floor',
  some: 'every',
  every: 'some',
  log: 'exp',
};

/** Calls that can be left out, their receiver or first argument standing in for them. */
const LEFT_OUT = new Set(['filter', 'sort', 'reverse', 'slice', 'abs', 'sqrt', 'replace', 'trim']);

const isConstantUnion = (type: ts.Type): type is ts.UnionType =>
  type.isUnion() && type.types.filter((one) => one.isStringLiteral()).length > 1;

/** Strings that mean something: those whose place takes one of a few words. Titles and messages are left. */
function otherWord(node: ts.StringLiteral, checker: ts.TypeChecker): string | null {
  const wanted = checker.getContextualType(node);
  const { parent } = node;
  const compared =
    ts.isBinaryExpression(parent) && parent.right === node
      ? checker.getTypeAtLocation(parent.left)
      : undefined;
  const type = compared ?? wanted;
  if (type === undefined || !isConstantUnion(type)) return null;
  const words = type.types.flatMap((one) => (one.isStringLiteral() ? [one.value] : []));
  if (!words.includes(node.text)) return null;
  return words.find((word) => word !== node.text) ?? null;
}

function changesOf(node: ts.Node, source: ts.SourceFile, checker: ts.TypeChecker): Change[] {
  const text = (one: ts.Node): string => one.getText(source);
  const whole = (now: string, said = now): Change => ({ was: text(node), now: said, text: now });
  if (ts.isBinaryExpression(node)) {
    const { left, operatorToken, right } = node;
    return (SWAPPED[operatorToken.kind] ?? []).map((operator) =>
      whole(`${text(left)} ${operator} ${text(right)}`),
    );
  }
  if (ts.isConditionalExpression(node)) {
    return [
      { was: text(node.condition), now: 'true', text: text(node.whenTrue) },
      { was: text(node.condition), now: 'false', text: text(node.whenFalse) },
    ];
  }
  if (ts.isPrefixUnaryExpression(node)) {
    if (node.operator === ts.SyntaxKind.ExclamationToken) return [whole(text(node.operand))];
    if (node.operator === ts.SyntaxKind.MinusToken) return [whole(text(node.operand))];
  }
  if (node.kind === ts.SyntaxKind.TrueKeyword) return [whole('false')];
  if (node.kind === ts.SyntaxKind.FalseKeyword) return [whole('true')];
  if (ts.isNumericLiteral(node)) {
    const value = Number(node.text);
    return [whole(Number.isInteger(value) ? String(value + 1) : String(value * 2))];
  }
  if (ts.isStringLiteral(node)) {
    const other = otherWord(node, checker);
    return other === null ? [] : [whole(`'${other}'`)];
  }
  if (ts.isArrayLiteralExpression(node) && node.elements.length > 0) return [whole('[]')];
  if (ts.isCallExpression(node)) return callChanges(node, source);
  if (ts.isPropertyAccessChain(node) && node.questionDotToken !== undefined) {
    return [whole(`${text(node.expression)}.${text(node.name)}`)];
  }
  return [];
}

/** The condition of an `if`, taken to hold always and never. */
function conditionChanges(node: ts.Node, source: ts.SourceFile): Change[] {
  if (!ts.isIfStatement(node.parent) || node.parent.expression !== node) return [];
  const was = `if (${node.getText(source)})`;
  return ['true', 'false'].map((now) => ({ was, now: `if (${now})`, text: now }));
}

function callChanges(node: ts.CallExpression, source: ts.SourceFile): Change[] {
  const callee = node.expression;
  if (!ts.isPropertyAccessExpression(callee)) return [];
  const name = callee.name.text;
  const receiver = callee.expression.getText(source);
  const args = node.arguments.map((one) => one.getText(source)).join(', ');
  const was = node.getText(source);
  const changes: Change[] = [];
  const opposite = OPPOSITE[name];
  if (opposite !== undefined) {
    const now = `${receiver}.${opposite}(${args})`;
    changes.push({ was, now, text: now });
  }
  if (LEFT_OUT.has(name)) {
    const now = receiver === 'Math' ? args : receiver;
    changes.push({ was, now, text: now });
  }
  return changes;
}

/** Places where an expression cannot be wrapped: names, types, patterns, imports, what is assigned to. */
function isWrappable(node: ts.Node): boolean {
  if (ts.isSourceFile(node)) return false;
  const { parent } = node;
  if (ts.isTypeNode(node) || ts.isLiteralTypeNode(parent)) return false;
  if (ts.isImportDeclaration(parent) || ts.isExportDeclaration(parent)) return false;
  if (ts.isPropertyAssignment(parent) && parent.name === node) return false;
  if (ts.isPropertyAccessExpression(parent) && parent.name === node) return false;
  if (ts.isArrayLiteralExpression(node) && ts.isBinaryExpression(parent) && parent.left === node) {
    return parent.operatorToken.kind !== ts.SyntaxKind.EqualsToken;
  }
  if (ts.isCaseClause(parent)) return false;
  // `a?.b.c` is one chain: a wrapped middle of it would break it
  if (ts.isOptionalChain(parent)) return false;
  return !(ts.isTypeAliasDeclaration(parent) || ts.isInterfaceDeclaration(parent));
}

/** Block bodies that can be left empty: of functions, ifs and loops. */
const canBeEmptied = (node: ts.Node): node is ts.Block =>
  ts.isBlock(node) && node.statements.length > 0 && !ts.isTryStatement(node.parent);

/**
 * The text of a source file with every change in it, each behind `__m(id)`, which says whether it is
 * the one being tried.
 */
export function instrument(
  source: ts.SourceFile,
  file: string,
  checker: ts.TypeChecker,
  firstId: number,
): { text: string; mutants: Mutant[] } {
  const mutants: Mutant[] = [];
  const add = (node: ts.Node, change: Pick<Change, 'was' | 'now'>): number => {
    const id = firstId + mutants.length;
    const { line } = source.getLineAndCharacterOfPosition(node.getStart(source));
    mutants.push({ id, file, line: line + 1, ...change });
    return id;
  };

  function write(node: ts.Node): string {
    if (ts.isTypeNode(node) || ts.isTypeAliasDeclaration(node) || ts.isInterfaceDeclaration(node)) {
      return node.getFullText(source);
    }
    const inner = writeInner(node);
    if (canBeEmptied(node)) {
      const said = node.getText(source).split('\n')[0] ?? '';
      const id = add(node, { was: `${said} ...`, now: '{}' });
      const at = inner.indexOf('{') + 1;
      return isFunctionBody(node)
        ? `${inner.slice(0, at)} if (__m(${id})) return; ${inner.slice(at)}`
        : `${inner.slice(0, at)} if (!__m(${id})) { ${inner.slice(at)} }`;
    }
    if (!isWrappable(node)) return inner;
    const changes = [...changesOf(node, source, checker), ...conditionChanges(node, source)];
    if (changes.length === 0) return inner;
    const lead = inner.slice(0, inner.length - inner.trimStart().length);
    const choices = changes.map((change) => `__m(${add(node, change)}) ? (${change.text}) : `);
    return `${lead}(${choices.join('')}(${inner.trim()}))`;
  }

  /** The node as written, its children instrumented, everything between them kept. */
  function writeInner(node: ts.Node): string {
    let text = '';
    let at = node.getFullStart();
    node.forEachChild((child) => {
      text += source.text.slice(at, child.getFullStart());
      text += write(child);
      at = child.getEnd();
    });
    return text + source.text.slice(at, node.getEnd());
  }

  return { text: write(source), mutants };
}

const isFunctionBody = ({ parent }: ts.Block): boolean => ts.isFunctionLike(parent);
