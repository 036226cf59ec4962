import { problemText } from './problem_text';

/** Advice for those who write the file themselves: keys, tables, quotes. */
const isForWriters = (line: string): boolean => /^hint: .*(?:\w = |\[\[|\{|\bquotes\b|\btable\b)/.test(line);

/** What is refused, in words for somebody who sees a field and no file. */
export const fieldWords = (message: string): string =>
  problemText(
    message
      .split('\n')
      .filter((line) => !isForWriters(line))
      .map((line) => line.replace(/^\S+\.toml(?:, changed)?: /, '').replace(/(^|: )\[(\w+)\] has/, '$1the $2 has'))
      .join('\n'),
  );
