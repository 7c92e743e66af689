/** What the user should look at before the rows are read: near rivals, doubtful columns, sizes that make no sense together. */
import type { Block } from '../host/host.ts';
import { cellWords } from './cell-values.ts';
import type { ColumnFacts } from './column-scores.ts';
import { headingParts } from './heading.ts';
import { columnFor, type Mapping } from './mapping.ts';
import { roleNames } from './role-names.ts';
import { rolesOfWords, speaksOfCount } from './role-words.ts';
import { sizeQuestions } from './size-check.ts';

/** A rival this near to the chosen column is asked about. */
const RIVAL_NEAR = 0.75;

export function withQuestions(
  mapping: Mapping,
  asked: readonly string[],
  facts: readonly ColumnFacts[],
  block: Block,
): Mapping {
  const questions: string[] = [...asked];
  for (const { role, heading, confidence, rivals } of mapping.columns) {
    const rival = rivals[0];
    if (rival && rival.confidence >= confidence * RIVAL_NEAR) {
      questions.push(
        `${roleNames[role]} is read from “${heading}”; “${rival.heading || 'a column without a heading'}” could be it too.`,
      );
    } else if (confidence < 0.5) {
      questions.push(`Is “${heading || 'the column without a heading'}” the ${roleNames[role].toLowerCase()}?`);
    }
  }
  questions.push(...countQuestions(mapping, facts), ...unreadQuestions(mapping, facts));
  const sizes = (['length', 'width', 'thickness'] as const).map((role) => {
    const column = columnFor(mapping, role);
    return { role, column, cells: facts.find((fact) => fact.column === column?.column)?.cells ?? [] };
  });
  const doubts = sizeQuestions(sizes, mapping.want, mapping.decimal, block.locale.dateOrder);
  const columns = mapping.columns.map((c) =>
    doubts.roles.has(c.role) ? { ...c, confidence: Math.round(c.confidence * 50) / 100 } : c,
  );
  return { ...mapping, columns, questions: [...questions, ...doubts.questions] };
}

/** A row is one board; a column of counts beside it is not to be overlooked. */
function countQuestions(mapping: Mapping, facts: readonly ColumnFacts[]): string[] {
  if (mapping.want !== 'boards') return setQuestions(mapping, facts);
  const counts = mapping.unused.find(({ column, heading }) => {
    const fact = facts.find((f) => f.column === column);
    return speaksOfCount(headingParts(heading).words) && fact?.cells.some((cell) => Number(cellWords(cell)) > 1);
  });
  if (counts === undefined) return [];
  return [`Each row is read as one board, but “${counts.heading}” counts more; give each board its own row and tag.`];
}

/** "Qty" for one chair beside "Chairs" or "Total": which of them counts? */
function setQuestions(mapping: Mapping, facts: readonly ColumnFacts[]): string[] {
  const quantity = columnFor(mapping, 'quantity');
  if (quantity === null || quantity.rivals.length > 0) return [];
  const counts = factOf(facts, quantity.column)?.cells.map((cell) => Number(cellWords(cell))) ?? [];
  const more = mapping.unused.find(({ column, heading }) => {
    if (!/^(?:total|sets?|units?|for|gesamt)\b/.test(headingParts(heading).words)) return false;
    const others = factOf(facts, column)?.cells.map((cell) => Number(cellWords(cell))) ?? [];
    return (
      others.length > 0 && others.every((n) => Number.isInteger(n)) && others.some((n, i) => n !== 1 && counts[i] !== n)
    );
  });
  if (more === undefined) return [];
  return [
    `The quantity is read from “${quantity.heading}” alone, but “${more.heading}” counts too; is it for one set?`,
  ];
}

const factOf = (facts: readonly ColumnFacts[], column: number) => facts.find((fact) => fact.column === column);

/** A plain heading whose cells say something else is left unused, but not silently. */
function unreadQuestions(mapping: Mapping, facts: readonly ColumnFacts[]): string[] {
  return mapping.unused.flatMap(({ column, heading }) => {
    const fact = facts.find((f) => f.column === column);
    if (fact === undefined || fact.cells.every((cell) => cellWords(cell) === '')) return [];
    const [role] = [...rolesOfWords(mapping.want, fact.words)].find(([, score]) => score >= 0.85) ?? [];
    // A column that numbers the rows is plain enough.
    if (role === undefined || role === 'key' || columnFor(mapping, role) !== null) return [];
    return [`“${heading}” is not used: its cells do not read as ${roleNames[role].toLowerCase()}.`];
  });
}
