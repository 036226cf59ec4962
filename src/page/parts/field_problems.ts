import { fieldWords } from './field_words';
import { isQuote } from './problem_text';

/** Where a problem begins: with its place in a file. */
const isHead = (line: string): boolean => /^\S.*:\d+:\d+: /.test(line);

/** What the program says is wrong, problem by problem, each as it stands beside a field. */
function problemsOf(message: string): readonly string[] {
  const problems: string[] = [];
  for (const line of message.split('\n')) {
    if (isQuote(line)) continue;
    const last = problems.at(-1);
    if (last === undefined || isHead(line)) problems.push(line);
    else problems[problems.length - 1] = `${last}\n${line}`;
  }
  return problems.map(fieldWords).filter((text) => text !== '');
}

export interface FieldProblems<T extends string> {
  readonly beside: Readonly<Partial<Record<T, string>>>;
  /** What is of no field. */
  readonly rest: string;
}

/** Puts each problem to the field whose entry it quotes. */
export function problemsByField<T extends string>(
  message: string,
  entries: Readonly<Record<T, string>>,
): FieldProblems<T> {
  const beside: Partial<Record<T, string>> = {};
  const rest: string[] = [];
  for (const problem of problemsOf(message)) {
    const about = (Object.keys(entries) as T[]).filter((field) => problem.includes(`"${entries[field]}"`));
    if (about.length === 0) rest.push(problem);
    for (const field of about) beside[field] ??= problem;
  }
  return { beside, rest: rest.join('\n') };
}
