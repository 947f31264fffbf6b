import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Node, type SourceFile, SyntaxKind } from "typescript/unstable/ast";
import {
  isBinaryExpression,
  isCallExpression,
  isConditionalExpression,
  isExpressionStatement,
  isFunctionLikeDeclaration,
  isIdentifier,
  isImportDeclaration,
  isJsxAttribute,
  isJsxExpression,
  isJsxText,
  isLiteralTypeNode,
  isNewExpression,
  isNoSubstitutionTemplateLiteral,
  isParenthesizedExpression,
  isPropertyAccessExpression,
  isPropertyAssignment,
  isStringLiteral,
  isTemplateExpression,
  isVariableDeclaration,
} from "typescript/unstable/ast/is";
import { API } from "typescript/unstable/sync";

export interface InlineWords {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** Attributes and fields that someone reads or hears: any letter in them is a word. */
const READ = new Set([
  "alt",
  "aria-description",
  "aria-label",
  "detail",
  "happened",
  "hint",
  "label",
  "lead",
  "placeholder",
  "safe",
  "shown",
  "term",
  "title",
  "todo",
  "verb",
  "word",
]);

/** Attributes that only a machine reads. */
const UNREAD =
  /^(className|href|id|rel|as|type|role|viewBox|d|accept|capture|style|key|aria-(labelledby|describedby)|data-.*)$/;

/** Units are the same in every language's catalogue, and stand in none. */
const UNITS = /(?<!\p{L})(min|s|h|kPa|Pa|MB|micron|psi|psig|kg|g|oz|lb)(?!\p{L})/gu;

/** Two words in a row, or a part of a sentence beside a value: codes, keys and addresses have no blanks and no capital first. */
const PROSE = /\p{L}{2}[^\p{L}\0/]*\s.*\p{L}|^\s*\p{Lu}\p{Ll}|\0[^\p{L}\0]*\s+\p{L}{2}|\p{L}{2},?\s+\0/u;

/** Calls whose strings are for the program: a place on the disk, a class, a locale, what is said to a developer. */
const NAMING =
  /^(classNames|useLive|useDraft|useSoleTab|useKeptPage|split|get|test|exec|querySelector|closest|toLocaleString|console\.\w+|super|import)$/;

/** A list of style classes: each has a dash or a colon in it. */
const CLASSES = /^\s*([-a-z\d]\S*[-:]\S+\s*)+$/;

/** The product's name is the same in every language. */
const OWN_NAME = "Dryhold";

/** Words written where they are shown instead of in the catalogue, in the order they stand. */
export function findInlineWords(paths: readonly string[]): InlineWords[] {
  return withSources(paths, (sources) => sources.flatMap((source) => wordsIn(source)));
}

/** Parses without resolving anything: only the text of these files is looked at. */
function withSources<T>(paths: readonly string[], work: (sources: SourceFile[]) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "dryhold-words-"));
  const config = join(folder, "tsconfig.json");
  const compilerOptions = { noLib: true, noResolve: true, types: [], jsx: "preserve" };
  writeFileSync(config, JSON.stringify({ compilerOptions, files: paths }));
  const api = new API({ cwd: folder });
  try {
    const program = api.updateSnapshot({ openProjects: [config] }).getProject(config)?.program;
    return work(
      paths.map((path) => {
        const source = program?.getSourceFile(path);
        if (!source) throw new Error(`${path} was not parsed`);
        return source;
      }),
    );
  } finally {
    api.close();
    rmSync(folder, { recursive: true });
  }
}

function wordsIn(source: SourceFile): InlineWords[] {
  return nodesIn(source).map((node) => placeOf(node, source));
}

function placeOf(node: Node, source: SourceFile): InlineWords {
  return {
    file: source.fileName,
    line: source.text.slice(0, node.getStart(source)).split("\n").length,
    text: node.getText(source).replace(/\s+/g, " ").trim(),
  };
}

function nodesIn(source: SourceFile): Node[] {
  const found: Node[] = [];
  const look = (node: Node): void => {
    if (isUnread(node)) return;
    const text = textOf(node);
    if (text !== undefined && text !== OWN_NAME && !CLASSES.test(text)) {
      if ((isRead(node) ? /\p{L}/u : PROSE).test(text.replace(UNITS, ""))) found.push(node);
    }
    node.forEachChild(look);
  };
  look(source);
  return found;
}

function textOf(node: Node): string | undefined {
  if (isJsxText(node) || isStringLiteral(node) || isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (isTemplateExpression(node))
    return [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join("\0");
  return undefined;
}

/** Something only the program reads: everything below it is left alone. */
function isUnread(node: Node): boolean {
  if (isImportDeclaration(node) || isLiteralTypeNode(node)) return true;
  if (isExpressionStatement(node) && isStringLiteral(node.expression)) return true; // a directive
  if (isJsxAttribute(node)) return UNREAD.test(node.name.getText());
  if (isCallExpression(node)) return NAMING.test(node.expression.getText().replace(/^.*\.(?!\w+$)/, ""));
  if (isPropertyAssignment(node) || isVariableDeclaration(node)) return /^(key|kept)$/.test(node.name.getText());
  if (isBinaryExpression(node)) return EQUALITY.has(node.operatorToken.kind) || node.left.getText().endsWith(".font");
  return isNewExpression(node) && /Error$|^Intl\./.test(node.expression.getText());
}
const EQUALITY = new Set([SyntaxKind.EqualsEqualsEqualsToken, SyntaxKind.ExclamationEqualsEqualsToken]);

/** Stands where someone reads it: as a child of an element, or as an attribute or field with a name for words. */
function isRead(node: Node): boolean {
  if (isJsxText(node)) return true;
  let at: Node = node;
  for (let above = node.parent; above; at = above, above = above.parent) {
    if (isJsxAttribute(above)) return READ.has(above.name.getText());
    if (isPropertyAssignment(above)) return above.initializer === at && READ.has(above.name.getText());
    if (isJsxExpression(above)) {
      if (!isJsxAttribute(above.parent)) return true;
    } else if (isConditionalExpression(above)) {
      if (above.condition === at) return false;
    } else if (isBinaryExpression(above)) {
      if (!JOINING.has(above.operatorToken.kind)) return false;
    } else if (!isParenthesizedExpression(above)) return false;
  }
  return false;
}
const JOINING = new Set([
  SyntaxKind.QuestionQuestionToken,
  SyntaxKind.BarBarToken,
  SyntaxKind.AmpersandAmpersandToken,
  SyntaxKind.PlusToken,
]);

/** Words kept at the top of a module: they would stay English there when another language is laid over. */
export function findEarlyWords(paths: readonly string[]): InlineWords[] {
  return withSources(paths, (sources) =>
    sources.flatMap((source) => {
      const found: Node[] = [];
      const look = (node: Node): void => {
        if (isFunctionLikeDeclaration(node)) return;
        if (isPropertyAccessExpression(node) && isIdentifier(node.expression) && /Words$/.test(node.expression.text))
          found.push(node);
        node.forEachChild(look);
      };
      look(source);
      return found.map((node) => placeOf(node, source));
    }),
  );
}
